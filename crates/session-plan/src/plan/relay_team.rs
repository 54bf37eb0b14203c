//! Who hands a baton to whom, in turn.

/// Athletes who hand a baton on among themselves.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct RelayTeam<T> {
    /// Who belongs to it.
    pub(crate) members: Vec<T>,
    /// Who brings the baton and who takes it, as places among the members, in turn; at least one.
    handings: Vec<(usize, usize)>,
}

impl<T: Copy + PartialEq> RelayTeam<T> {
    /// Those who hand on as they are listed, each to the next. Nothing where nobody has anybody to hand to.
    fn in_order(listed: &[T]) -> Option<Self> {
        let mut members: Vec<T> = Vec::new();
        let mut places: Vec<usize> = Vec::new();
        for one in listed {
            let known = members.iter().position(|member| member == one);
            places.push(known.unwrap_or(members.len()));
            if known.is_none() {
                members.push(*one);
            }
        }
        places.dedup();
        let handings: Vec<(usize, usize)> = places.windows(2).map(|pair| (pair[0], pair[1])).collect();
        (!handings.is_empty()).then_some(Self { members, handings })
    }

    /// Two who hand on both ways in turn.
    fn pair(a: T, b: T) -> Self {
        Self { members: vec![a, b], handings: vec![(0, 1), (1, 0)] }
    }

    /// Takes in somebody who is left over. Of three each stands out in turn, and brings the baton after that; a longer
    /// team hands on to the one more.
    fn take_in(&mut self, one: T) {
        let last = self.members.len();
        self.members.push(one);
        match last {
            2 => self.handings = vec![(0, 1), (2, 0), (1, 2)],
            _ => self.handings.push((last - 1, last)),
        }
    }

    /// Who brings the baton and who takes it in an attempt, counted from 0.
    pub(crate) fn handing(&self, attempt: usize) -> (T, T) {
        let (incoming, outgoing) = self.handings[attempt % self.handings.len()];
        (self.members[incoming], self.members[outgoing])
    }
}

/// The teams of some athletes: those that are listed, and pairs of the others in their order. An odd one out joins the
/// team before. None for somebody who is alone.
pub(crate) fn relay_teams<T: Copy + PartialEq>(listed: &[Vec<T>], everybody: &[T]) -> Vec<RelayTeam<T>> {
    let mut teams: Vec<RelayTeam<T>> = listed.iter().filter_map(|team| RelayTeam::in_order(team)).collect();
    let is_in_one = |one: &T| teams.iter().any(|team| team.members.contains(one));
    let left: Vec<T> = everybody.iter().copied().filter(|one| !is_in_one(one)).collect();
    for pair in left.chunks(2) {
        match (pair, teams.last_mut()) {
            ([a, b], _) => teams.push(RelayTeam::pair(*a, *b)),
            ([one], Some(team)) => team.take_in(*one),
            _ => {}
        }
    }
    teams
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Who hands to whom in each of some attempts of each team.
    fn attempts(listed: &[Vec<char>], everybody: &str, count: usize) -> Vec<String> {
        let everybody: Vec<char> = everybody.chars().collect();
        let of_team = |team: &RelayTeam<char>| {
            let handings = (0..count).map(|attempt| team.handing(attempt));
            handings.map(|(incoming, outgoing)| format!("{incoming}{outgoing}")).collect::<Vec<_>>().join(" ")
        };
        relay_teams(listed, &everybody).iter().map(of_team).collect()
    }

    #[test]
    fn neighbours_hand_on_both_ways() {
        assert_eq!(attempts(&[], "abcd", 3), ["ab ba ab", "cd dc cd"]);
    }

    #[test]
    fn an_odd_one_out_brings_the_baton_next_and_everybody_does_both() {
        assert_eq!(attempts(&[], "abcde", 4), ["ab ba ab ba", "cd ec de cd"]);
        assert_eq!(attempts(&[], "abc", 3), ["ab ca bc"]);
    }

    #[test]
    fn a_listed_team_hands_on_in_its_order() {
        let listed = [vec!['a', 'b', 'c', 'd'], vec!['f', 'e']];
        assert_eq!(attempts(&listed, "abcdefgh", 4), ["ab bc cd ab", "fe fe fe fe", "gh hg gh hg"]);
        assert_eq!(attempts(&[vec!['a', 'b', 'a']], "ab", 3), ["ab ba ab"]);
    }

    #[test]
    fn who_is_left_over_joins_the_team_before() {
        assert_eq!(attempts(&[vec!['a', 'b', 'c', 'd']], "abcde", 4), ["ab bc cd de"]);
        assert_eq!(attempts(&[vec!['a', 'b']], "abc", 3), ["ab ca bc"]);
        // Whose partner is absent is left over as well.
        assert_eq!(attempts(&[vec!['a'], vec!['b', 'c']], "abc", 3), ["bc ab ca"]);
        assert_eq!(attempts(&[], "a", 2), [""; 0]);
    }
}
