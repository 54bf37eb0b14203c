//! How much a file may hold, and what is made of it.

use workout_notation::{MOST_BLOCKS, MOST_REPS};

/// How much a file may hold, and what is made of it: far more than an evening needs, and little enough for any file to be answered at once.
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
    /// Lines of blocks in a session file, in all its lists.
    BlockLines,
    /// Blocks of a session; a line may hold several.
    Blocks,
    /// Marks of a track's own, each place of a row counted.
    Marks,
    /// Worn marks of a track.
    WornMarks,
    /// Hazards of a track.
    Hazards,
    /// Pieces of the path of a track.
    Pieces,
    /// Repetitions of a session, each counted once for all who run it.
    Reps,
    /// Runs of a session: the repetitions of each athlete.
    Runs,
    /// Lines of runs and notes that plans may take on paper, two on cards counted as one.
    PrintedLines,
    /// The same where the sheets are made into pictures.
    PicturedLines,
    /// Lines of runs and notes that plans may take on a page for a phone.
    PageLines,
}

impl Limit {
    /// All of them.
    pub const ALL: [Self; 20] = [
        Self::FileBytes,
        Self::TextBytes,
        Self::AliasedBytes,
        Self::Depth,
        Self::Items,
        Self::ValueBytes,
        Self::NameLetters,
        Self::Groups,
        Self::Athletes,
        Self::BlockLines,
        Self::Blocks,
        Self::Marks,
        Self::WornMarks,
        Self::Hazards,
        Self::Pieces,
        Self::Reps,
        Self::Runs,
        Self::PrintedLines,
        Self::PicturedLines,
        Self::PageLines,
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
            Self::BlockLines => 200,
            Self::Blocks => MOST_BLOCKS,
            Self::Athletes | Self::Marks | Self::WornMarks => 500,
            Self::Hazards | Self::Pieces => 50,
            Self::Reps => MOST_REPS as usize,
            Self::Runs => 12_000,
            Self::PrintedLines => 2_000,
            Self::PicturedLines => 800,
            Self::PageLines => 6_000,
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
            Self::BlockLines => "lines of blocks in a session file",
            Self::Blocks => "blocks of a session",
            Self::Marks => "own marks of a track, each of a row counted",
            Self::WornMarks => "worn marks of a track",
            Self::Hazards => "hazards of a track",
            Self::Pieces => "pieces of a track's path",
            Self::Reps => "repetitions of a session",
            Self::Runs => "runs of all athletes of a session",
            Self::PrintedLines => "lines of runs and notes on printed sheets, two on cards counted as one",
            Self::PicturedLines => "the same lines where the sheets are pictures",
            Self::PageLines => "lines of runs and notes on a page for a phone",
        }
    }
}
