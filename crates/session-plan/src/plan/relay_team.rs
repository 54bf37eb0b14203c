//! Who hands a baton to whom, in turn.

/// Athletes who hand a baton on among themselves.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct RelayTeam<T> {
    /// Who belongs to it.
    pub(crate) members: Vec<T>,
    /// The order of the baton, where one is listed; else two hand on both ways, and of three each stands out in turn.
    order: Vec<T>,
    /// Who brings the baton and who takes it, in turn; at least one.
    handings: Vec<(T, T)>,
}

impl<T: Copy + PartialEq> RelayTeam<T> {
    /// Those who hand on as they are listed, each to the next. Nothing where nobody has anybody to hand to.
    fn in_order(mut order: Vec<T>) -> Option<Self> {
        order.dedup();
        let mut members: Vec<T> = Vec::new();
        for one in &order {
            if !members.contains(one) {
                members.push(*one);
            }
        }
        let handings: Vec<(T, T)> = order.windows(2).map(|pair| (pair[0], pair[1])).collect();
        (!handings.is_empty()).then_some(Self { members, order, handings })
    }

    /// Those who hand on in every way: two or three. Nothing for fewer, and for more.
    fn in_turn(members: Vec<T>) -> Option<Self> {
        let handings = match members.as_slice() {
            [a, b] => vec![(*a, *b), (*b, *a)],
            // Who stood out brings the baton.
            [a, b, c] => vec![(*a, *b), (*c, *a), (*b, *c)],
            _ => return None,
        };
        Some(Self { members, order: Vec::new(), handings })
    }

    /// The team with somebody who is left over: three in turn, or the next in a longer order.
    fn with(&self, one: T) -> Option<Self> {
        if self.members.len() == 2 {
            Self::in_turn([self.members.as_slice(), &[one]].concat())
        } else {
            Self::in_order([self.order.as_slice(), &[one]].concat())
        }
    }

    /// Those of the team who still run, where they can hand on.
    pub(crate) fn of_those(&self, is_in: impl Fn(T) -> bool) -> Option<Self> {
        let those = |all: &[T]| all.iter().copied().filter(|one| is_in(*one)).collect();
        if self.order.is_empty() {
            Self::in_turn(those(&self.members))
        } else {
            Self::in_order(those(&self.order))
        }
    }

    /// Who brings the baton and who takes it in an attempt, counted from 0.
    pub(crate) fn handing(&self, attempt: usize) -> (T, T) {
        self.handings[attempt % self.handings.len()]
    }
}

/// The teams of some athletes: those that are listed, and pairs of the others in their order. An odd one out joins the
/// team before. None for somebody who is alone.
pub(crate) fn relay_teams<T: Copy + PartialEq>(listed: Vec<Vec<T>>, everybody: &[T]) -> Vec<RelayTeam<T>> {
    let mut teams: Vec<RelayTeam<T>> = listed.into_iter().filter_map(RelayTeam::in_order).collect();
    let is_in_one = |one: &T| teams.iter().any(|team| team.members.contains(one));
    let left: Vec<T> = everybody.iter().copied().filter(|one| !is_in_one(one)).collect();
    for pair in left.chunks(2) {
        match (pair, teams.last()) {
            ([one], Some(last)) => {
                let joined = last.with(*one);
                teams.pop();
                teams.extend(joined);
            }
            _ => teams.extend(RelayTeam::in_turn(pair.to_vec())),
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
        relay_teams(listed.to_vec(), &everybody).iter().map(of_team).collect()
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

    #[test]
    fn those_who_still_run_go_on_among_themselves() {
        let handing = |teams: &[RelayTeam<char>], out: char, attempt: usize| {
            teams[0].of_those(|one| one != out).map(|rest| rest.handing(attempt))
        };
        let three = relay_teams(Vec::new(), &['a', 'b', 'c']);
        assert_eq!([0, 1].map(|attempt| handing(&three, 'b', attempt)), [Some(('a', 'c')), Some(('c', 'a'))]);
        let four = relay_teams(vec![vec!['a', 'b', 'c', 'd']], &[]);
        assert_eq!([0, 1].map(|attempt| handing(&four, 'b', attempt)), [Some(('a', 'c')), Some(('c', 'd'))]);
        assert_eq!(handing(&relay_teams(Vec::new(), &['a', 'b']), 'b', 0), None);
    }
}
