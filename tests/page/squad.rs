//! Several athletes in waves that overlap: each is timed by name.

use serde_json::json;

use crate::browser::{PHONE, Shown, show};
use crate::made::{CLUB_EVENING, SPRINTERS, made};
use crate::stub::STUBS;

const FIRST_WAVE: [&str; 5] = ["Mara", "Noor", "Otis", "Pia", "Quin"];
const SECOND_WAVE: [&str; 5] = ["Rosa", "Sami", "Tove", "Ursa", "Vito"];

/// The others that run, as they are offered.
fn others(page: &Shown) -> serde_json::Value {
    page.value("[...document.querySelectorAll('#others button')].map((one) => one.textContent)")
}

/// Two waves run since 10 s and 20 s.
fn two_waves(page: &Shown) {
    page.tap("#go");
    page.set_clock(10_000);
    page.set_clock(25_000);
}

#[test]
fn the_names_of_the_wave_that_should_be_in_first_are_shown_and_the_other_wave_is_a_tap_away() {
    let page = show!(made(&CLUB_EVENING), PHONE, STUBS);
    two_waves(&page);
    assert_eq!(page.names_running(), json!(FIRST_WAVE));
    assert_eq!(others(&page), json!(["5.0 wave 2"]));
    page.tap("#others button");
    assert_eq!(page.names_running(), json!(SECOND_WAVE));
    assert_eq!(page.go_words(), "Stop all 5.0");
    assert_eq!(others(&page), json!(["15.0 wave 1"]));
}

#[test]
fn a_name_stops_its_own_time_in_its_own_wave() {
    let page = show!(made(&CLUB_EVENING), PHONE, STUBS);
    two_waves(&page);
    // 3:30 after the go of the first wave.
    page.tap_name_at(220_000, "Otis");
    page.tap("#others button");
    page.tap_name_at(221_000, "Vito");
    assert_eq!(page.times("s1-b4-r1"), ["", "", "3:30.0", "", ""]);
    assert_eq!(page.times("s1-b4-r2"), ["", "", "", "", "3:21.0"]);
    page.tap("#others button");
    assert_eq!(page.names_running(), json!(["Mara", "Noor", "Pia", "Quin"]));
}

#[test]
fn when_a_wave_is_in_the_next_one_is_shown() {
    let page = show!(made(&CLUB_EVENING), PHONE, STUBS);
    two_waves(&page);
    for (name, at_ms) in FIRST_WAVE.iter().zip([218_000, 218_800, 219_600, 220_400, 221_200]) {
        page.tap_name_at(at_ms, name);
    }
    assert_eq!(page.times("s1-b4-r1"), ["3:28.0", "3:28.8", "3:29.6", "3:30.4", "3:31.2"]);
    assert_eq!(page.names_running(), json!(SECOND_WAVE));
    assert_eq!(page.go_words(), "Stop all 3:21.2");
}

/// A tired thumb that meant the last of one wave does not stop the first of the next.
#[test]
fn a_tap_as_the_names_change_stops_nobody() {
    let page = show!(made(&CLUB_EVENING), PHONE, STUBS);
    two_waves(&page);
    for (name, at_ms) in FIRST_WAVE[1..].iter().zip([218_000, 218_800, 219_600, 220_400]) {
        page.tap_name_at(at_ms, name);
    }
    page.tap_name_at(221_200, "Mara");
    page.tap_at(221_500, "#names .name:nth-child(1)");
    assert_eq!(page.times("s1-b4-r2"), [""; 5]);
}

#[test]
fn the_rest_of_a_wave_is_stopped_at_once() {
    let page = show!(made(&CLUB_EVENING), PHONE, STUBS);
    two_waves(&page);
    page.tap_name_at(218_000, "Mara");
    page.set_clock(226_000);
    page.set_clock(230_000);
    assert_eq!(page.go_words(), "Stop the rest 3:40.0");
    page.tap("#go");
    assert_eq!(page.times("s1-b4-r1"), ["3:28.0", "3:40.0", "3:40.0", "3:40.0", "3:40.0"]);
    assert_eq!(page.times("s1-b4-r2"), [""; 5], "the other wave runs on");
}

#[test]
fn three_groups_run_at_once() {
    let page = show!(made(&CLUB_EVENING), PHONE, STUBS);
    two_waves(&page);
    page.tap_go_at(220_000);
    page.tap_go_at(230_000);
    // The sprinters go five minutes after the middle distance, with three waves.
    page.set_clock(310_000);
    page.set_clock(335_000);
    assert_eq!(page.words("#head"), "sprinters: (300 m, 250 m, 200 m, 150 m) @ 85%, 6 min rest");
    assert_eq!(page.names_running(), json!(["Gita", "Hana", "Cleo"]));
    assert_eq!(others(&page), json!(["15.0 wave 2", "5.0 wave 3"]));
    page.set_clock(345_000);
    assert_eq!(others(&page), json!(["25.0 wave 2", "15.0 wave 3", "5.0 middle distance, wave 1"]));
}

#[test]
fn one_of_several_coaches_times_the_own_group_alone() {
    let page = show!(made(&CLUB_EVENING), PHONE, STUBS);
    page.choose("choose-group", "sprinters");
    assert_eq!(page.words("#head"), "sprinters: (300 m, 250 m, 200 m, 150 m) @ 85%, 6 min rest");
    page.tap_go_at(2_000);
    page.set_clock(12_000);
    assert_eq!(page.names_running(), json!(["Gita", "Hana", "Cleo"]));
    page.set_clock(37_000);
    assert_eq!(others(&page), json!(["15.0 wave 2", "5.0 wave 3"]), "no other group goes");
}

#[test]
fn every_name_is_a_target_for_a_thumb_in_the_rain() {
    for name in ["monday-two-groups", "tuesday-sprints", "saturday-club-evening"] {
        let page = show!(crate::made::made_of_wrenbeck(name), PHONE, STUBS);
        page.tap("#go");
        page.set_clock(10_000);
        page.set_clock(25_000);
        let small = page.value(
            "[...document.querySelectorAll('#names .name, #others button')].map((one) => one.getBoundingClientRect())
               .filter(({ width, height }) => width < 48 || height < 48).length",
        );
        assert_eq!(small, 0, "{name}");
    }
    let page = show!(made(&SPRINTERS), PHONE, STUBS);
    assert_eq!(page.value("document.querySelectorAll('#names .name').length"), 3);
}
