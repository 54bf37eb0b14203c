//! `toeline measure`, refused: names that no mark or several marks have, places off the track, and
//! values out of range.

use crate::answer::told;
use crate::console::refused;
use crate::run::toeline;
use snapbox::str;

#[test]
fn marks_and_places() {
    refused(str![[r#"
# a name that could be several marks
$ toeline measure --lane 2 --from '4x100 m takeover zone exit' --to finish
error: `4x100 m takeover zone exit` could be `first 4x100 m takeover zone exit`, `second 4x100 m takeover zone exit` or `third 4x100 m takeover zone exit`
$ toeline measure --lane 2 --from 'zone entry' --to 'finish line'
error: `zone entry` could be `first 4x400 m takeover zone entry`, `later 4x400 m takeover zone entry`, `first 4x100 m takeover zone entry`, `second 4x100 m takeover zone entry` or `third 4x100 m takeover zone entry`

# of many marks the first are named and the others counted
$ toeline measure --lane 2 --from 'hurdle tick' --to finish
error: `hurdle tick` could be `400 m hurdle tick 1`, `400 m hurdle tick 2`, `400 m hurdle tick 3`, `400 m hurdle tick 4`, `400 m hurdle tick 5`, `400 m hurdle tick 6` or one of 24 more

# a name that no mark has, and the near ones
$ toeline measure --lane 2 --from 'pole vault' --to finish
error: no mark is called `pole vault`
$ toeline measure --lane 2 --from '400 m strat' --to finish
error: no mark is called `400 m strat`; near it: `400 m start`, `4x400 m start` or `200 m start`
$ toeline measure --lane 2 --from '210 m start' --to 'finish line'
error: no mark is called `210 m start`; near it: `200 m start`, `100 m start` or `1500 m start`

# a lane that is not there
$ toeline measure --lane 9 --from finish --to finish
error: there is no lane 9 on the oval; open there: lanes 1 to 8
$ toeline measure --lane 2 --to-lane 0 --from finish --to finish
error: there is no lane 0 on the oval; open there: lanes 1 to 8

# a mark that is not in the lane
$ toeline measure --track standard-6 --lane 8 --from '200 m start' --to finish
error: the 200 m start is not painted in lane 8; it is in lanes 1 to 6

# metres that are none
$ toeline measure --lane 2 --from 'finish - some' --to finish
error: `- some` is not a number of metres; write for example `400 m start + 5`
$ toeline measure --lane 2 --from 'finish + 1e9' --to finish
error: `+ 1e9` is not a number of metres; write for example `400 m start + 5`

# a place off its straight
$ toeline measure --lane 2 --from '110 m hurdles start - 20' --to finish
error: `110 m hurdles start - 20` lies off the home straight, which is 113.00 m long with its chute

# no way leads back into the chute
$ toeline measure --lane 2 --from finish --to '110 m hurdles start'
error: no route leads from the oval to the home straight in the direction of running

"#]]);
}

#[test]
fn values_out_of_range() {
    for (option, value, said) in [
        ("--laps", "101", "invalid value '101' for '--laps <LAPS>': 101 is not in 0..=100"),
        ("--laps", "-1", "unexpected argument '-1' found"),
        (
            "--time",
            "soon",
            "invalid value 'soon' for '--time <TIME>': expected a time, found `soon`; write for example `48`, `48s` or `1:12`",
        ),
        (
            "--time",
            "0",
            "invalid value '0' for '--time <TIME>': `0` is out of range for a time; write more than 0 s and at most 6 hours",
        ),
        (
            "--running-line",
            "3.1",
            "invalid value '3.1' for '--running-line <METRES>': write metres from 0 to 3, such as 0.5",
        ),
        (
            "--running-line",
            "wide",
            "invalid value 'wide' for '--running-line <METRES>': write metres from 0 to 3, such as 0.5",
        ),
        ("--intended", "200", "the following required arguments were not provided:"),
        ("--to-lane", "300", "invalid value '300' for '--to-lane <LANE>': 300 is not in 0..=255"),
    ] {
        let arguments = ["measure", "--lane", "2", "--from", "400 m start", "--to", "finish", option, value];
        let told = told(&toeline(&arguments).assert().code(2));
        assert_eq!(told.lines().next(), Some(format!("error: {said}").as_str()), "{option} {value}");
    }
}
