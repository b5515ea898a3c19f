//! What can be typed after `flight`.

use clap::Args;

use costcard::player::club::Club;

use super::{Rules, within};

/// `flight`.
#[derive(Debug, Args)]
#[command(
    after_help = "Example:\n  costcard flight --ball-speed 127 --launch 14.1 --backspin 6231\n  costcard flight --club '6 iron' --club-speed 92 --attack -4.1 --dynamic-loft 20 --face 1"
)]
pub struct FlightArgs {
    /// The ball.
    #[command(flatten)]
    pub ball: BallArgs,
    /// The head.
    #[command(flatten)]
    pub delivery: DeliveryArgs,
    /// Air temperature, °F
    #[arg(long, help_heading = "The air and the green", value_name = "F", default_value_t = 75.0, allow_negative_numbers = true, value_parser = within(10.0..=125.0, "°F"))]
    pub temperature: f64,
    /// Height above the sea, feet
    #[arg(long, help_heading = "The air and the green", value_name = "FT", default_value_t = 0.0, allow_negative_numbers = true, value_parser = within(-1500.0..=15000.0, "feet"))]
    pub altitude: f64,
    /// Relative humidity, percent
    #[arg(long, help_heading = "The air and the green", value_name = "PCT", default_value_t = 50.0, value_parser = within(0.0..=100.0, "percent"))]
    pub humidity: f64,
    /// Wind speed at 10 m above the ground, mph
    #[arg(long, help_heading = "The air and the green", value_name = "MPH", default_value_t = 0.0, value_parser = within(0.0..=60.0, "mph"))]
    pub wind: f64,
    /// Wind from, degrees: 0 into the face, 90 from the right
    #[arg(long, help_heading = "The air and the green", value_name = "DEG", default_value_t = 0.0, allow_negative_numbers = true, value_parser = within(0.0..=360.0, "degrees"))]
    pub wind_from: f64,
    /// Stimpmeter reading of the green, feet
    #[arg(long, help_heading = "The air and the green", value_name = "FT", default_value_t = 10.0, value_parser = within(5.0..=16.0, "feet"))]
    pub stimp: f64,
    /// Rules.
    #[command(flatten)]
    pub rules: Rules,
}

/// The figures of the ball.
#[derive(Debug, Args)]
#[command(next_help_heading = "The ball as it leaves the face")]
pub struct BallArgs {
    /// Ball speed, mph
    #[arg(long, value_name = "MPH", required_unless_present_any = DELIVERY, value_parser = within(20.0..=220.0, "mph"))]
    pub ball_speed: Option<f64>,
    /// Launch angle above the horizontal, degrees
    #[arg(long, value_name = "DEG", required_unless_present_any = DELIVERY, allow_negative_numbers = true, value_parser = within(-20.0..=70.0, "degrees"))]
    pub launch: Option<f64>,
    /// Backspin, rpm
    #[arg(long, value_name = "RPM", required_unless_present_any = DELIVERY, allow_negative_numbers = true, value_parser = within(-3000.0..=15000.0, "rpm"))]
    pub backspin: Option<f64>,
    /// Start direction, degrees, right of the target positive; 0 when left out
    #[arg(long, value_name = "DEG", allow_negative_numbers = true, value_parser = within(-45.0..=45.0, "degrees"))]
    pub direction: Option<f64>,
    /// Sidespin, rpm; positive curves right; 0 when left out
    #[arg(long, value_name = "RPM", allow_negative_numbers = true, value_parser = within(-8000.0..=8000.0, "rpm"))]
    pub sidespin: Option<f64>,
}

/// The flags of a ball, which a delivery stands in place of.
const BALL: [&str; 5] = ["ball_speed", "launch", "backspin", "direction", "sidespin"];
/// The flags of a delivery.
const DELIVERY: [&str; 7] = [
    "club",
    "club_speed",
    "attack",
    "path",
    "face",
    "dynamic_loft",
    "lie",
];

/// How the head meets the ball.
#[derive(Debug, Args)]
#[command(next_help_heading = "Or the head as it meets the ball")]
pub struct DeliveryArgs {
    /// Which club, such as '6 iron': its head decides what the ball gets
    #[arg(long, value_name = "NAME", conflicts_with_all = BALL, requires_all = ["club_speed", "attack", "dynamic_loft"])]
    pub club: Option<Club>,
    /// Club speed, mph
    #[arg(long, value_name = "MPH", conflicts_with_all = BALL, requires = "club", value_parser = within(20.0..=160.0, "mph"))]
    pub club_speed: Option<f64>,
    /// Attack angle, degrees; negative is down on the ball
    #[arg(long, value_name = "DEG", conflicts_with_all = BALL, requires = "club", allow_negative_numbers = true, value_parser = within(-25.0..=25.0, "degrees"))]
    pub attack: Option<f64>,
    /// Loft of the face at impact, degrees
    #[arg(long, value_name = "DEG", conflicts_with_all = BALL, requires = "club", allow_negative_numbers = true, value_parser = within(-10.0..=80.0, "degrees"))]
    pub dynamic_loft: Option<f64>,
    /// Club path, degrees, right positive; 0 when left out
    #[arg(long, value_name = "DEG", conflicts_with_all = BALL, requires = "club", allow_negative_numbers = true, value_parser = within(-45.0..=45.0, "degrees"))]
    pub path: Option<f64>,
    /// Where the face points, degrees, right positive; 0 when left out
    #[arg(long, value_name = "DEG", conflicts_with_all = BALL, requires = "club", allow_negative_numbers = true, value_parser = within(-45.0..=45.0, "degrees"))]
    pub face: Option<f64>,
    /// Tilt of the sole, degrees; positive turns the face right; usually 0
    #[arg(long, value_name = "DEG", conflicts_with_all = BALL, requires = "club", allow_negative_numbers = true, value_parser = within(-30.0..=30.0, "degrees"))]
    pub lie: Option<f64>,
}
