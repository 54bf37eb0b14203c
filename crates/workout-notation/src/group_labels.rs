//! The groups of a text that are named in front of what they do.

use crate::group_label::label_behind;
use crate::lines::Line;
use crate::names_in_front::names_in_front;
use crate::people::is_group_name;
use crate::vocabulary::Role;

/// What the names of groups in the lines of a text say of it as a whole.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(crate) struct GroupLabels {
    /// The names, each once, as they are written first; none where there are not two.
    names: Vec<String>,
    /// Whether a line without a name goes on with what the group above it does.
    pub(crate) go_on: bool,
}

impl GroupLabels {
    /// Looks for names in front of runs. One name alone is only what the runs are called.
    pub(crate) fn of(lines: &[Line<'_>]) -> Self {
        // Hardly a text has them.
        let may_name = |line: &Line<'_>| {
            let text = line.lexed.text;
            line.lexed.roles.has(Role::GROUP)
                || text.ends_with([')', ':'])
                || text.contains('(')
                || text.contains(':') && is_group_name(line.first_words().trim())
                || text.starts_with(char::is_uppercase) && names_in_front(text).is_some()
        };
        if !lines.iter().any(may_name) {
            return Self::default();
        }
        let (mut labels, mut is_in_label, mut has_more) = (Self::default(), false, false);
        let mut has_people = false;
        // Those whose athletes are named.
        let mut rosters: Vec<String> = Vec::new();
        for (index, line) in lines.iter().enumerate() {
            let has_next = index + 1 < lines.len();
            let named = line.named_group().filter(|_| has_next);
            let begins = if named.is_some() { None } else { line.group_label(index == 0) };
            if let Some((group, _)) = named {
                let is_new = labels.add(group);
                labels.go_on |= is_new && is_in_label && has_more;
                rosters.push(group.to_owned());
                (is_in_label, has_more) = (false, false);
            } else if let Some(label) = &begins {
                let is_new = label.group.as_ref().is_some_and(|group| labels.add(group));
                labels.go_on |= is_new && is_in_label && has_more;
                let is_sure = !label.roster.is_empty() || !label.roster.lanes.is_empty();
                rosters.extend(label.group.clone().filter(|_| is_sure));
                (is_in_label, has_more) = (true, false);
            } else if is_group_name(line.lexed.text.trim_end_matches(':').trim())
                && lines.get(index + 1).is_some_and(|next| next.group_label(false).is_none())
            {
                // Above another name it is what all of them are called.
                let is_new = labels.add(line.lexed.text.trim_end_matches(':').trim());
                labels.go_on |= is_new && is_in_label && has_more;
                (is_in_label, has_more) = (false, false);
            } else if !line.begins_with_then() {
                has_more = true;
            }
            has_people |= begins.is_some();
            let mut known = begins.as_ref().map_or(0, |label| label.end);
            for at in 1..line.lexed.tokens.len() {
                // Within a name no other begins.
                if line.lexed.tokens[at].span.start < known {
                    continue;
                }
                if let Some((_, label)) = label_behind(&line.lexed, at) {
                    known = label.end;
                    has_people = true;
                    label.group.iter().for_each(|group| _ = labels.add(group));
                }
            }
        }
        // `Group 1 (fast)`
        let is_called = |name: &str| {
            is_group_name(name) || is_group_name(name.split('(').next().unwrap_or_default().trim())
        };
        let people = labels.names.iter().filter(|name| is_called(name) || rosters.contains(name)).count();
        if has_people && (people > 1 || !rosters.is_empty()) { labels } else { Self::default() }
    }

    /// Whether there are groups.
    pub(crate) fn is_empty(&self) -> bool {
        self.names.is_empty()
    }

    /// Adds a name, and says whether it is a new one.
    fn add(&mut self, group: &str) -> bool {
        let is_new = self.names.iter().all(|name| !is_same(name, group));
        if is_new {
            self.names.push(group.to_owned());
        }
        is_new
    }

    /// A name as it was written first.
    pub(crate) fn name(&self, group: String) -> String {
        self.names.iter().find(|name| is_same(name, &group)).cloned().unwrap_or(group)
    }
}

/// Whether two names are the same: `U13`, `u13s`.
pub(crate) fn is_same(one: &str, other: &str) -> bool {
    let bare = |name: &str| name.to_lowercase().trim_end_matches('s').to_owned();
    bare(one) == bare(other)
}
