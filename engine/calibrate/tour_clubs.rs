//! Launch of tour professionals by club, for clubs in the published table and between them.

use std::error::Error;

use costcard::player::club::{Class, Club};

/// Wedges that the table leaves out: ball speed (share of the pitching wedge's), launch added (°), backspin (share).
/// Common practice, no published source.
const WEDGES: [(Club, [f64; 3]); 3] = [
    (Club::GapWedge, [0.925, 2.8, 1.05]),
    (Club::SandWedge, [0.85, 5.8, 1.09]),
    (Club::LobWedge, [0.765, 8.8, 1.11]),
];

/// A hybrid launches higher than the iron that goes as far, degrees (common practice).
const HYBRID_HIGHER_DEG: f64 = 1.0;

/// Ball speed (mph), launch (°) and backspin (rpm) of tour men or women.
pub struct TourClubs(Vec<(Club, [f64; 3])>);

impl TourClubs {
    pub fn read(tour: &str) -> Result<Self, Box<dyn Error>> {
        let mut clubs = Vec::new();
        for row in crate::table("tour-flight-averages.csv")?
            .iter()
            .filter(|row| &row[0] == tour)
        {
            clubs.push((
                row[1].parse()?,
                [row[2].parse()?, row[3].parse()?, row[4].parse()?],
            ));
        }
        clubs.sort_by_key(|(club, _)| *club);
        Ok(Self(clubs))
    }

    pub fn of(&self, club: Club) -> [f64; 3] {
        if let Some((_, factors)) = WEDGES.iter().find(|(wedge, _)| *wedge == club) {
            let [ball_speed, launch, backspin] = self.of(Club::PitchingWedge);
            return [
                ball_speed * factors[0],
                launch + factors[1],
                backspin * factors[2],
            ];
        }
        if let Some((_, figures)) = self.0.iter().find(|(known, _)| *known == club) {
            return *figures;
        }
        let loft = club.iron_loft_deg();
        let last = self.0.len() - 1;
        let upper = self
            .0
            .iter()
            .position(|(known, _)| *known > club)
            .unwrap_or(last)
            .max(1);
        let ((longer, a), (shorter, b)) = (self.0[upper - 1], self.0[upper]);
        let t =
            (loft - longer.iron_loft_deg()) / (shorter.iron_loft_deg() - longer.iron_loft_deg());
        let mut figures: [f64; 3] = std::array::from_fn(|i| a[i] + (b[i] - a[i]) * t);
        if club.class() == Class::Hybrid {
            figures[1] += HYBRID_HIGHER_DEG;
        }
        figures
    }
}
