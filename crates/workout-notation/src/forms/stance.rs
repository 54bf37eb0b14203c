//! How the runners stand at the start: `from blocks`, `standing start`, `rolling start`.

use crate::cursor::Cursor;
use crate::form::{Form, row};
use crate::forms::clause::Clause;
use crate::phrases::Phrases;
use crate::spanned::Spanned;

/// How the runners stand at the start.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stance {
    /// In starting blocks, which stay in their lane.
    Blocks,
    /// Upright.
    Standing,
    /// Crouched, without blocks: on three or on four points.
    Crouch,
    /// Moving already.
    Rolling,
}

const NAME: &str = "kind of start";

const BLOCKS: Phrases = Phrases::new(&[
    &[&["from", "off", "w", "with"], &["the"], &["blocks"]],
    &[&["from", "off", "with"], &["blocks"]],
    &[&["w"], &["/"], &["blocks"]],
    &[&["out"], &["of"], &["the"], &["blocks"]],
    &[&["out"], &["of"], &["blocks"]],
    &[&["block"], &["start", "starts"]],
    &[&["blocks"]],
]);
const STANDING: Phrases = Phrases::new(&[
    &[&["from"], &["a"], &["standing"], &["start"]],
    &[&["from"], &["standing"], &["start"]],
    &[&["from"], &["standing"]],
    &[&["standing"], &["start", "starts"]],
]);
const CROUCH: Phrases = Phrases::new(&[
    &[&["from"], &["a"], &["crouch"], &["start"]],
    &[&["from"], &["a"], &["crouch"]],
    &[&["from"], &["crouch"]],
    &[&["crouch"], &["start", "starts"]],
]);
const ROLLING: Phrases = Phrases::new(&[
    &[&["from"], &["a"], &["rolling", "jogging"], &["start"]],
    &[&["from"], &["rolling", "jogging"], &["start"]],
    &[&["rolling", "jogging", "walking"], &["start", "starts"]],
    &[&["from"], &["a"], &["roll"]],
]);

pub(crate) const STANCE: Clause<Stance> = Clause {
    form: Form {
        begins: Phrases::new(&[&[&["block", "blocks", "crouch", "rolling"]]]),
        words: &["blocks", "crouch", "rolling"],
        rows: &[row(&["30 from blocks", "60 standing start"], "how the runners stand at the start")],
    },
    name: NAME,
    read: |cursor, value| {
        let begins = cursor.place();
        // `from a 3-point start`
        if cursor.is_word(0, &["from"]) {
            cursor.skip_all(1 + usize::from(cursor.is_word(1, &["a"])));
        }
        let dash = usize::from(cursor.is_sign(1, '-'));
        if cursor.is_number(0) && cursor.is_word(1 + dash, &["point", "pt"]) {
            cursor.skip_all(2 + dash);
            cursor.bind_since(begins);
            cursor.word(&["start", "starts", "stance"]);
            cursor.set(value, Spanned::new(Stance::Crouch, cursor.since(begins)), begins, NAME);
            return true;
        }
        cursor.go_back(begins);
        // `5 x 60 blocks, 5 x 60 standing`: beside blocks it is a kind of start.
        if cursor.is_word(0, &["standing"])
            && (cursor.is_sign(1, '(') || cursor.is_sign(1, ','))
            && cursor.has_blocks()
        {
            cursor.skip();
            cursor.set(value, Spanned::new(Stance::Standing, cursor.since(begins)), begins, NAME);
            return true;
        }
        let all = [
            (BLOCKS, Stance::Blocks),
            (STANDING, Stance::Standing),
            (CROUCH, Stance::Crouch),
            (ROLLING, Stance::Rolling),
        ];
        let Some((_, stance)) = all.into_iter().find(|(phrases, _)| cursor.one_of(*phrases)) else {
            return false;
        };
        cursor.set(value, Spanned::new(stance, cursor.since(begins)), begins, NAME);
        true
    },
    print: |stance, f| {
        f.write_str(match stance {
            Stance::Blocks => "from blocks",
            Stance::Standing => "standing start",
            Stance::Crouch => "crouch start",
            Stance::Rolling => "rolling start",
        })
    },
    is_printed_last: |_| false,
    is_of_last_run: |_, _| false,
};

impl Cursor<'_> {
    /// Whether the text speaks of starting blocks.
    fn has_blocks(&self) -> bool {
        let is_blocks = |word: &str| ["block", "blocks"].iter().any(|name| word.eq_ignore_ascii_case(name));
        self.text.split(|letter: char| !letter.is_alphabetic()).any(is_blocks)
    }
}
