//! Steps into nested data.

/// One step into nested data.
///
/// ```
/// use lane_distance::Key;
///
/// // The radius of the first piece of the path.
/// let radius = [Key::from("path"), Key::from(0), Key::from("radius")];
/// assert_eq!(radius[1], Key::Index(0));
/// ```
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub enum Key {
    /// The value under a name.
    Name(String),
    /// The item of a list, counted from 0.
    Index(usize),
}

impl From<&str> for Key {
    fn from(name: &str) -> Self {
        Self::Name(name.to_owned())
    }
}

impl From<usize> for Key {
    fn from(index: usize) -> Self {
        Self::Index(index)
    }
}

/// The keys that lead to a value: `key!["path", 2, "radius"]`.
macro_rules! key {
    ($($part:expr),* $(,)?) => { vec![$($crate::track::key::Key::from($part)),*] };
}
pub(crate) use key;
