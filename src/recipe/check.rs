//! Collecting what is wrong with a recipe or an order: every check notes its fault and goes on.

use super::limits::Limit;
use crate::base::notice::{Notice, Severity, Step};
use crate::base::units::{Mm, plain};

/// The notices found so far.
#[derive(Default)]
pub struct Check(Vec<Notice>);

impl Check {
    /// The risks and notes, or everything if there is a fault.
    pub fn finish(self) -> Result<Vec<Notice>, Vec<Notice>> {
        let fault = self.0.iter().any(|notice| notice.severity == Severity::Fault);
        if fault { Err(self.0) } else { Ok(self.0) }
    }

    fn add(&mut self, notice: Notice) -> &mut Notice {
        self.0.push(notice);
        let at = self.0.len() - 1;
        &mut self.0[at]
    }

    /// Notes what keeps it from being made.
    pub fn fault(&mut self, step: Step, what: &str, why: String, remedy: impl Into<String>) -> &mut Notice {
        self.add(Notice::new(Severity::Fault, step, what, why, remedy))
    }

    /// Notes what may go wrong.
    pub fn risk(&mut self, step: Step, what: &str, why: String, remedy: impl Into<String>) -> &mut Notice {
        self.add(Notice::new(Severity::Risk, step, what, why, remedy))
    }

    /// Notes what is good to know.
    pub fn note(&mut self, step: Step, what: &str, why: String, remedy: impl Into<String>) -> &mut Notice {
        self.add(Notice::new(Severity::Note, step, what, why, remedy))
    }

    /// Whether a value is within its range; a fault if not.
    pub fn range(&mut self, step: Step, name: &str, value: f64, limit: Limit, unit: &str) -> bool {
        let holds = limit.holds(value);
        if !holds {
            let shown = if value.is_finite() { plain(value) } else { "not a number".into() };
            self.fault(
                step,
                "Out of range.",
                format!("{name} is {}.", format!("{shown} {unit}").trim_end()),
                format!("Use {}.", limit.in_words(unit)),
            );
        }
        holds
    }

    /// Whether a length is within its range; a fault if not.
    pub fn length(&mut self, step: Step, name: &str, value: Mm, limit: Limit) -> bool {
        self.range(step, name, value.0, limit, "mm")
    }

    /// Whether a share is within its range; a fault, in percent, if not.
    pub fn share(&mut self, step: Step, name: &str, value: f64, limit: Limit) -> bool {
        let holds = limit.holds(value);
        if !holds {
            let percent = Limit { least: limit.least * 100.0, most: limit.most * 100.0, ..limit };
            self.range(step, name, value * 100.0, percent, "%");
        }
        holds
    }

    /// A fault unless the first of two lengths is at most the second.
    pub fn order(&mut self, step: Step, low: &str, least: Mm, high: &str, most: Mm) {
        if least > most {
            self.fault(
                step,
                "The wrong way round.",
                format!("{low} is {least} and {high} is {most}."),
                "Swap them.",
            );
        }
    }

    /// Notes a glass that is not on the shelf; `form` says of what kind it should be.
    pub fn unknown_glass(&mut self, step: Step, id: &str, form: &str) {
        let shown: String = id.chars().take(40).collect();
        self.fault(
            step,
            "A glass that is not on the shelf.",
            format!("There is no {form} called \"{shown}\" here."),
            format!("Choose a {form} from the shelf."),
        );
    }
}
