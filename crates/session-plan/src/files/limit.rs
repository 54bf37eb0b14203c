//! How much a file may hold.

/// How much a file may hold: far more than an evening needs, and little enough for any file to be answered at once.
///
/// ```
/// use session_plan::Limit;
///
/// assert_eq!(Limit::Athletes.most(), 500);
/// assert_eq!(Limit::Athletes.words(), "athletes of a session");
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Limit {
    /// Bytes of a session or track file.
    FileBytes,
    /// Bytes of the text of a session.
    TextBytes,
    /// Bytes that aliases (`*name`) add to a file, a hundred for each value beside its text.
    AliasedBytes,
    /// Levels of lists and groups of keys within one another.
    Depth,
    /// Items of a list, or keys of a group of keys.
    Items,
    /// Bytes of one value that is text.
    ValueBytes,
    /// Characters of a title or a name.
    NameLetters,
    /// Groups of a session.
    Groups,
    /// Athletes of a session, in all its groups.
    Athletes,
    /// Lines of blocks in a session, in all its lists.
    Blocks,
    /// Marks of a track's own, each place of a row counted.
    Marks,
    /// Worn marks of a track.
    WornMarks,
    /// Hazards of a track.
    Hazards,
    /// Pieces of the path of a track.
    Pieces,
}

impl Limit {
    /// All of them.
    pub const ALL: [Self; 14] = [
        Self::FileBytes,
        Self::TextBytes,
        Self::AliasedBytes,
        Self::Depth,
        Self::Items,
        Self::ValueBytes,
        Self::NameLetters,
        Self::Groups,
        Self::Athletes,
        Self::Blocks,
        Self::Marks,
        Self::WornMarks,
        Self::Hazards,
        Self::Pieces,
    ];

    /// The most that there may be.
    pub const fn most(self) -> usize {
        match self {
            Self::FileBytes | Self::AliasedBytes => 1024 * 1024,
            Self::TextBytes => 64 * 1024,
            Self::Depth => 24,
            Self::Items => 1_000,
            Self::ValueBytes => 10_000,
            Self::NameLetters => 200,
            Self::Groups => 40,
            Self::Blocks => 200,
            Self::Athletes | Self::Marks | Self::WornMarks => 500,
            Self::Hazards => 50,
            Self::Pieces => 50,
        }
    }

    /// What it counts.
    pub const fn words(self) -> &'static str {
        match self {
            Self::FileBytes => "bytes of a session or track file",
            Self::TextBytes => "bytes of the text of a session",
            Self::AliasedBytes => "bytes added by aliases (`*name`)",
            Self::Depth => "levels of lists and groups of keys",
            Self::Items => "items of a list, or keys of a group",
            Self::ValueBytes => "bytes of one text in a file",
            Self::NameLetters => "characters of a title or a name",
            Self::Groups => "groups of a session",
            Self::Athletes => "athletes of a session",
            Self::Blocks => "lines of blocks in a session file",
            Self::Marks => "own marks of a track, each of a row counted",
            Self::WornMarks => "worn marks of a track",
            Self::Hazards => "hazards of a track",
            Self::Pieces => "pieces of a track's path",
        }
    }
}
