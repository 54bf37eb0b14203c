//! Words that a message makes bold.

/// Words that are bold in a message: `*Sprinters*`, `**Day 1:**`.
pub(crate) struct Bold {
    /// Where the signs stand in the line that make them so.
    pub(crate) signs: Vec<usize>,
    /// Which of them stands for a colon: `*Middles* Dee, Eli`.
    pub(crate) colon: Option<usize>,
}

impl Bold {
    /// The bold words with which a line begins.
    pub(crate) fn of(line: &str) -> Option<Self> {
        let trimmed = line.trim_start();
        let begins = line.len() - trimmed.len();
        let signs = trimmed.bytes().take_while(|byte| *byte == b'*').count();
        let inner = trimmed[signs..].starts_with(char::is_alphanumeric).then(|| &trimmed[signs..])?;
        let sign = "**".get(..signs).filter(|sign| !sign.is_empty())?;
        let close = inner.find(sign)?;
        let (words, more) = (&inner[..close], inner[close + signs..].trim());
        if words.ends_with(' ') {
            return None;
        }
        let behind = begins + signs + close;
        let is_heading = words.ends_with(char::is_alphanumeric) && words.contains(char::is_alphabetic);
        let needs_colon = more.starts_with(char::is_alphanumeric) && !more.contains(':');
        let colon = (is_heading && needs_colon).then_some(behind);
        Some(Self { signs: (begins..begins + signs).chain(behind..behind + signs).collect(), colon })
    }
}
