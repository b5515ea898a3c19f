//! The clubs of a bag and how their names are read.

/// A golf club.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Club {
    /// The driver.
    Driver,
    /// A fairway wood by number, 2 to 11.
    Wood(u8),
    /// A hybrid by number, 1 to 8.
    Hybrid(u8),
    /// An iron by number, 1 to 9.
    Iron(u8),
    /// Pitching wedge.
    PitchingWedge,
    /// Gap wedge.
    GapWedge,
    /// Sand wedge.
    SandWedge,
    /// Lob wedge.
    LobWedge,
}
