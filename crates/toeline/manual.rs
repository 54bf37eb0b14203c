//! Completions and manual pages, made from the flags.

use std::io::{IsTerminal, Write};
use std::process::{Command, ExitStatus, Stdio};

use anyhow::{Result, anyhow, bail};
use clap::CommandFactory;
use clap_mangen::roff::{Inline, Roff, bold, roman};
use pulldown_cmark::{Event, Options, Parser, Tag, TagEnd};

use crate::failure::InputError;
use crate::flags::Flags;
use crate::output;
use crate::reference::{REFERENCE, ReferencePage};

const VERSION: &str = concat!("toeline ", env!("CARGO_PKG_VERSION"));

/// The completions of a shell.
pub(crate) fn completions(shell: clap_complete::Shell) -> String {
    let mut text = Vec::new();
    clap_complete::generate(shell, &mut Flags::command(), "toeline", &mut text);
    String::from_utf8_lossy(&text).into_owned()
}

/// The manual page of the program, of one of its commands, or of a subject.
pub(crate) fn page(name: Option<&str>) -> Result<String> {
    let mut program = Flags::command();
    program.build();
    let subject = REFERENCE.iter().find(|page| Some(page.name) == name);
    if let Some(subject) = subject {
        return Ok(of_reference(subject));
    }
    let command = match name {
        None => &program,
        Some(name) => match program.find_subcommand(name) {
            Some(command) => command,
            None => {
                let commands = program.get_subcommands().map(clap::Command::get_name);
                let known: Vec<&str> = commands.chain(REFERENCE.iter().map(|page| page.name)).collect();
                bail!(InputError::new(anyhow!(
                    "there is no page `{name}`; write one of {}",
                    known.join(", ")
                )))
            }
        },
    };
    let mut text = Vec::new();
    clap_mangen::Man::new(command.clone()).source(VERSION).render(&mut text)?;
    Ok(String::from_utf8_lossy(&text).into_owned())
}

/// Shows a manual page: in the reader of such pages where somebody sits at a terminal and has one, else as it is.
pub(crate) fn show(page: &str) -> Result<()> {
    if std::io::stdout().is_terminal() && read_with_man(page).is_ok_and(|status| status.success()) {
        return Ok(());
    }
    output::print(page)
}

fn read_with_man(page: &str) -> std::io::Result<ExitStatus> {
    let mut man =
        Command::new("man").args(["-l", "-"]).stdin(Stdio::piped()).stderr(Stdio::null()).spawn()?;
    if let Some(mut stdin) = man.stdin.take() {
        // Whoever has read enough closes it.
        let _ = stdin.write_all(page.as_bytes());
    }
    man.wait()
}

/// A page of the reference as a manual page, of section 7.
fn of_reference(page: &ReferencePage) -> String {
    let mut roff = Roff::new();
    roff.control("TH", [&*format!("toeline-{}", page.name), "7", "", VERSION, "Toeline"]);
    // The words that are being put together.
    let mut words: Vec<Inline> = Vec::new();
    let mut is_bold = false;
    let mut cells = 0;
    let mut is_head = false;
    for event in Parser::new_ext(page.markdown, Options::ENABLE_TABLES) {
        match event {
            Event::Start(Tag::Strong) => is_bold = true,
            Event::End(TagEnd::Strong) => is_bold = false,
            Event::Text(text) if is_bold => words.push(bold(&*text)),
            Event::Text(text) => words.push(roman(&*text)),
            Event::Code(text) => words.push(bold(&*text)),
            Event::SoftBreak => words.push(roman(" ")),
            Event::Start(Tag::Paragraph) => {
                roff.control("PP", []);
            }
            Event::Start(Tag::Item) => {
                roff.control("IP", ["\u{2022}", "2"]);
            }
            Event::Start(Tag::CodeBlock(_)) => {
                roff.control("PP", []);
                roff.control("EX", []);
            }
            Event::Start(Tag::TableHead) => is_head = true,
            Event::Start(Tag::TableRow) => {
                cells = 0;
                roff.control("TP", []);
            }
            // The heads of columns say little where each row is a paragraph.
            Event::End(TagEnd::TableCell) if is_head => words.clear(),
            Event::End(TagEnd::TableHead) => is_head = false,
            Event::End(TagEnd::TableCell) => {
                cells += 1;
                // What a row is about stands in front of the others.
                if cells == 1 {
                    roff.text(std::mem::take(&mut words));
                } else {
                    words.push(roman("; "));
                }
            }
            Event::End(TagEnd::TableRow) => {
                words.pop();
                roff.text(std::mem::take(&mut words));
            }
            Event::End(TagEnd::Heading(_)) => {
                let heading: String = std::mem::take(&mut words).iter().map(text_of).collect();
                roff.control("SH", [&*heading]);
            }
            Event::End(TagEnd::CodeBlock) => {
                roff.text(std::mem::take(&mut words));
                roff.control("EE", []);
            }
            Event::End(TagEnd::Paragraph | TagEnd::Item) if !words.is_empty() => {
                roff.text(std::mem::take(&mut words));
            }
            _ => {}
        }
    }
    roff.to_roff()
}

/// The words of a part of a line.
fn text_of(part: &Inline) -> &str {
    match part {
        Inline::Roman(text) | Inline::Italic(text) | Inline::Bold(text) => text,
        Inline::LineBreak => " ",
    }
}
