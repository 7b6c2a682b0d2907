//! The share of changes that was caught, of every folder and of all, with what chance leaves open.

use super::FOLDERS;
use super::changes::Change;
use std::fmt::Write;

/// Of the changes that build: how many there were, how many were caught.
#[derive(Clone, Copy, Default)]
struct Count {
    viable: f64,
    caught: f64,
}

impl Count {
    fn of(table: &str, folder: &str, number: bool) -> Self {
        let mut count = Self::default();
        for line in table.lines().skip(1) {
            let fields: Vec<&str> = line.split('"').collect();
            let [before, _, after] = fields[..] else { continue };
            let mut before = before.split(',');
            let of = before.next() == Some(folder) && (before.next() == Some("Number")) == number;
            let outcome = after.split(',').nth(1);
            if of && outcome != Some("no_build") {
                count.viable += 1.0;
                count.caught += f64::from(u8::from(outcome != Some("survived")));
            }
        }
        count
    }

    fn share(self) -> f64 {
        self.caught / self.viable
    }

    /// Wilson's interval for a share, 95 % (Wilson 1927, J. Am. Stat. Assoc. 22, 209; from memory).
    fn interval(self) -> (f64, f64) {
        let (n, p, z2) = (self.viable, self.share(), 1.96 * 1.96);
        let middle = (p + z2 / (2.0 * n)) / (1.0 + z2 / n);
        let half = (z2 * (p * (1.0 - p) / n + z2 / (4.0 * n * n))).sqrt() / (1.0 + z2 / n);
        (middle - half, middle + half)
    }
}

/// The shares of a table of results, as a table.
pub fn told(table: &str, all: &[Change]) -> String {
    let mut told = String::new();
    for (number, what) in [(false, "changes as cargo mutants lists them"), (true, "numbers a tenth larger")] {
        let _ = writeln!(told, "\n{what}\nfolder    there are  tried  caught  share  (95 %)");
        let (mut sum, mut share, mut variance, mut weights) = (Count::default(), 0.0, 0.0, 0.0);
        for folder in FOLDERS {
            let count = Count::of(table, folder, number);
            let of = |change: &&Change| change.folder() == folder && change.is_number() == number;
            let there = all.iter().filter(of).count() as f64;
            if count.viable == 0.0 {
                continue;
            }
            told += &line(folder, there, count, count.share(), count.interval());
            sum.viable += count.viable;
            sum.caught += count.caught;
            weights += there;
            share += there * count.share();
            variance += there * there * count.share() * (1.0 - count.share()) / count.viable;
        }
        if sum.viable > 0.0 {
            let (share, off) = (share / weights, 1.96 * variance.sqrt() / weights);
            told += &line("sample", weights, sum, sum.share(), sum.interval());
            told += &line("by size", weights, sum, share, (share - off, share + off));
        }
    }
    told
}

fn line(what: &str, there: f64, count: Count, share: f64, (low, high): (f64, f64)) -> String {
    let Count { viable, caught } = count;
    let percent = |x: f64| 100.0 * x.clamp(0.0, 1.0);
    let (share, low, high) = (percent(share), percent(low), percent(high));
    format!("{what:9} {there:9}  {viable:5}  {caught:6}  {share:4.0} %  ({low:.0} to {high:.0})\n")
}
