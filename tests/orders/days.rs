//! The days of an order: worked by hand, and laws of the calendar.

use dappledome::base::firing::Firing;
use dappledome::base::units::{Minutes, Mm};
use dappledome::orders::days::{Change, Days, Doing, Job, Pace, What, days};
use dappledome::orders::loads::{Batch, Loads, in_loads};
use dappledome::orders::model::{Order, StepMinutes, Wish, Workday};
use dappledome::recipe::{Recipe, Stem};
use jiff::civil::{Date, date};
use proptest::prelude::*;
use std::collections::BTreeMap;

/// A Monday.
const TODAY: Date = date(2026, 11, 30);

fn batch(firing: Firing, pieces: &[(usize, u32)], holds: u32, hours: f64, molds_limit: bool) -> Batch {
    let loads = in_loads(pieces, holds);
    Batch { firing, across: Mm(160.0), holds, molds_limit, places: Vec::new(), hours, kwh: 10.0, loads }
}

fn fired(batches: Vec<Batch>) -> Loads {
    Loads { kiln: String::new(), guess: false, batches, notices: Vec::new() }
}

/// What is mounted.
fn on_a_stem() -> Recipe {
    Recipe { stem: Some(Stem::default()), ..Recipe::bare() }
}

/// So many pieces, all of them wanted: seven to a fuse of 14 h, five to a slump of 11.3 h, as many as there are molds.
fn seven_and_five(pieces: u32) -> (Order, Loads) {
    let of = [(0, pieces)];
    let loads =
        fired(vec![batch(Firing::FullFuse, &of, 7, 14.0, false), batch(Firing::Slump, &of, 5, 11.3, true)]);
    (Order { spare_per_ten: 0, ..Order::of(on_a_stem(), pieces) }, loads)
}

fn planned(order: &Order, loads: &Loads) -> Days {
    let made: Vec<u32> = order.lines.iter().map(|line| line.count).collect();
    days(&Job { order, loads, made: &made }, &[], TODAY).expect("everything can be fired")
}

fn on(days: &Days, what: What) -> Vec<(Date, u32)> {
    days.doings.iter().filter(|doing| doing.what == what).map(|doing| (doing.day, doing.pieces)).collect()
}

/// 14 pieces of 4 and 8 minutes are cut and sifted in 168 of Monday's 360 minutes. Fused on Monday and Tuesday evening, slumped on the
/// three evenings after, the last opened on Saturday; mounted on Monday, a week of rest: ready on the 14th.
#[test]
fn fourteen_pieces_take_two_weeks() {
    let (mut order, loads) = seven_and_five(14);
    order.due = Some(date(2026, 12, 18));
    let days = planned(&order, &loads);
    assert_eq!(on(&days, What::Cut), [(TODAY, 14)]);
    assert_eq!(on(&days, What::Sift), [(TODAY, 14)]);
    assert_eq!(on(&days, What::Fire(Firing::FullFuse)), [(TODAY, 7), (date(2026, 12, 1), 7)]);
    let slumps = [(date(2026, 12, 2), 5), (date(2026, 12, 3), 5), (date(2026, 12, 4), 4)];
    assert_eq!(on(&days, What::Fire(Firing::Slump)), slumps);
    assert_eq!(on(&days, What::Mount), [(date(2026, 12, 7), 14)]);
    assert_eq!((days.ready, days.in_hand), (date(2026, 12, 14), Some(4)));
    // 4 + 8 + 6 minutes, and 2 for each of two loadings.
    assert_eq!(days.hand_work, Minutes(14.0 * 22.0));
    assert!(days.notices.is_empty(), "{:?}", days.notices);
}

/// The same without stems: the last slump is opened on Saturday, so all is ready on Monday the 7th, and six minutes each are saved. Seven with and
/// seven without are ready a week after that Monday.
#[test]
fn what_has_no_stem_is_not_mounted_and_does_not_rest() {
    let (mut order, loads) = seven_and_five(14);
    order.lines[0].recipe.stem = None;
    let days = planned(&order, &loads);
    assert_eq!((on(&days, What::Mount), days.ready), (vec![], date(2026, 12, 7)));
    assert_eq!(days.hand_work, Minutes(14.0 * 16.0));
    let mut stemmed = order.lines[0].clone();
    stemmed.recipe = on_a_stem();
    (order.lines[0].count, stemmed.count) = (7, 7);
    order.lines.push(stemmed);
    let of = [(0, 7), (1, 7)];
    let loads =
        fired(vec![batch(Firing::FullFuse, &of, 7, 14.0, false), batch(Firing::Slump, &of, 5, 11.3, true)]);
    let days = planned(&order, &loads);
    assert_eq!((on(&days, What::Mount), days.ready), (vec![(date(2026, 12, 7), 7)], date(2026, 12, 14)));
    order.work.minutes.mount = Minutes(0.0);
    assert_eq!(planned(&order, &loads).ready, date(2026, 12, 14), "silicone cures however fast it is laid");
}

/// By day as well: fused on Monday evening and, opened at 8 on Tuesday, at once again; opened at 22, slumped then, at 9:18 and at 20:36 on
/// Wednesday; mounted on Thursday the 3rd, ready on the 10th.
#[test]
fn firing_by_day_is_four_days_faster() {
    let (order, loads) = seven_and_five(14);
    let days = planned(&order, &loads);
    let by_day =
        days.earlier.iter().find(|earlier| earlier.change == Change::FireByDay).expect("it is faster");
    assert_eq!((by_day.ready, by_day.days), (date(2026, 12, 10), 4));
    assert_eq!(
        days.pace,
        Pace::Kiln(5),
        "with a kiln for every load: fused on Monday, slumped on Tuesday, mounted on Wednesday the 2nd"
    );
    let mut by_day = order;
    by_day.work.fires_by_day = true;
    let slumps = on(&planned(&by_day, &loads), What::Fire(Firing::Slump));
    assert_eq!(slumps, [(date(2026, 12, 1), 5), (date(2026, 12, 2), 5), (date(2026, 12, 2), 4)]);
}

/// The second fuse, of the pieces after the first seven, not before Friday: the slumps wait for it, the last opened on Thursday morning.
/// Sifting of all not before Wednesday: the first fuse waits for it too.
#[test]
fn a_chosen_day_is_kept_and_what_needs_it_waits() {
    let (mut order, loads) = seven_and_five(14);
    let friday = date(2026, 12, 4);
    let fuse = What::Fire(Firing::FullFuse);
    order.wishes = vec![Wish { what: fuse, after: 7, not_before: friday }];
    let days = planned(&order, &loads);
    assert_eq!(on(&days, fuse), [(TODAY, 7), (friday, 7)]);
    let slumps = [(date(2026, 12, 7), 5), (date(2026, 12, 8), 5), (date(2026, 12, 9), 4)];
    assert_eq!(on(&days, What::Fire(Firing::Slump)), slumps, "loads keep their turns");
    let wednesday = date(2026, 12, 2);
    order.wishes = vec![Wish { what: What::Sift, after: 0, not_before: wednesday }];
    let days = planned(&order, &loads);
    assert_eq!(on(&days, fuse), [(wednesday, 7), (date(2026, 12, 3), 7)]);
    // Nobody works on a Saturday: it is the Monday after.
    order.wishes = vec![Wish { what: fuse, after: 7, not_before: date(2026, 12, 5) }];
    assert_eq!(on(&planned(&order, &loads), fuse), [(TODAY, 7), (date(2026, 12, 7), 7)]);
}

/// 20 minutes a day for 5 pieces of 18 minutes each: hand work sets the pace.
#[test]
fn slow_hands_set_the_pace() {
    let (mut order, loads) = seven_and_five(5);
    order.work.a_day = Minutes(20.0);
    let days = planned(&order, &loads);
    // 20 minutes of cutting on Monday, 40 of sifting on Tuesday and Wednesday.
    assert_eq!(on(&days, What::Sift), [(date(2026, 12, 1), 2), (date(2026, 12, 2), 3)]);
    assert!(matches!(days.pace, Pace::Hands(gains) if gains > 0), "{:?}", days.pace);
    assert!(days.earlier.iter().any(|earlier| earlier.change == Change::LongerDays), "{:?}", days.earlier);
}

#[test]
fn late_is_said_with_what_would_help() {
    let (mut order, loads) = seven_and_five(14);
    order.due = Some(date(2026, 12, 11));
    let late = planned(&order, &loads);
    assert_eq!(late.in_hand, Some(-3));
    let [notice] = &late.notices[..] else { panic!("{:?}", late.notices) };
    assert_eq!(notice.what, "Ready 3 days after it is due.");
    assert!(
        notice.remedy.contains("Fire by day as well: then it is ready on 2026-12-10"),
        "{}",
        notice.remedy
    );
    assert!(notice.remedy.contains("agree on 2026-12-14"), "{}", notice.remedy);
    order.due = Some(date(2026, 11, 1));
    let past = planned(&order, &loads);
    assert_eq!(past.notices[0].what, "Due on a day that is past.");
    assert_eq!(past.ready, late.ready, "nothing of the days is lost");
}

#[test]
fn what_is_due_first_has_the_kiln_first() {
    let (mut order, loads) = seven_and_five(7);
    let (mut other, others) = seven_and_five(7);
    (order.due, other.due) = (Some(date(2026, 12, 20)), Some(date(2026, 12, 15)));
    let own = Job { order: &order, loads: &loads, made: &[7] };
    let beside = Job { order: &other, loads: &others, made: &[7] };
    let later = days(&own, &[beside], TODAY).unwrap();
    let alone = planned(&order, &loads);
    assert_eq!(alone.doings.iter().find(|doing| doing.fires.is_some()).unwrap().day, TODAY);
    // The other one has the kiln on three evenings.
    assert_eq!(on(&later, What::Fire(Firing::FullFuse)), [(date(2026, 12, 3), 7)]);
    assert_eq!((later.ready, later.others[0].ready), (date(2026, 12, 15), date(2026, 12, 10)));
    let first =
        later.earlier.iter().find(|earlier| earlier.change == Change::BeforeOthers).expect("it helps");
    assert_eq!(first.ready, alone.ready);
    let mut before = order.clone();
    before.ahead = Some(1);
    let before = days(&Job { order: &before, ..own }, &[beside], TODAY).unwrap();
    // Now it is the other one that waits for three evenings.
    assert_eq!((before.ready, before.others[0].ready), (alone.ready, later.ready));
    assert!(before.earlier.iter().all(|earlier| earlier.change != Change::BeforeOthers), "it is by now");
}

/// Another order has the kiln on Tuesday and Wednesday evening. A first load of 40 h does not go in before it, and the second one of 12 h
/// waits its turn though Monday is free: loads that overtook each other could make an order ready earlier by one piece more.
#[test]
fn loads_of_one_order_keep_their_turns() {
    let (mut other, others) = seven_and_five(5);
    (other.due, other.starts) = (Some(TODAY), Some(date(2026, 12, 1)));
    let mut order = Order::of(Recipe::bare(), 1);
    order.lines.push(order.lines[0].clone());
    let loads = fired(vec![
        batch(Firing::FullFuse, &[(0, 1)], 7, 40.0, false),
        batch(Firing::FullFuse, &[(1, 1)], 7, 12.0, false),
    ]);
    let own = Job { order: &order, loads: &loads, made: &[1, 1] };
    let days = days(&own, &[Job { order: &other, loads: &others, made: &[5] }], TODAY).unwrap();
    let fuses = on(&days, What::Fire(Firing::FullFuse));
    assert_eq!(fuses, [(date(2026, 12, 3), 1), (date(2026, 12, 7), 1)]);
}

/// Anything that can be asked for.
#[derive(Clone, Debug)]
struct Asked {
    lines: Vec<u32>,
    holds: (u32, u32),
    hours: (f64, f64),
    by_day: bool,
    a_day: f64,
    minutes: [f64; 3],
    workdays: Vec<Workday>,
    wishes: Vec<Wish>,
}

const WEEK: [Workday; 7] = [
    Workday::Monday,
    Workday::Tuesday,
    Workday::Wednesday,
    Workday::Thursday,
    Workday::Friday,
    Workday::Saturday,
    Workday::Sunday,
];

fn asked() -> impl Strategy<Value = Asked> {
    let lines = prop::collection::vec(1..12_u32, 1..4);
    let minutes = [0.0..60.0_f64, 0.0..90.0, 0.0..40.0];
    let workdays = prop::sample::subsequence(WEEK.to_vec(), 1..=7);
    (
        lines,
        (1..9_u32, 1..6_u32),
        (4.0..45.0_f64, 4.0..45.0_f64),
        any::<bool>(),
        30.0..500.0_f64,
        minutes,
        workdays,
        prop::collection::vec(wish(), 0..4),
    )
        .prop_map(|(lines, holds, hours, by_day, a_day, minutes, workdays, wishes)| Asked {
            lines,
            holds,
            hours,
            by_day,
            a_day,
            minutes,
            workdays,
            wishes,
        })
}

fn wish() -> impl Strategy<Value = Wish> {
    let whats = [What::Cut, What::Sift, What::Mount, What::Fire(Firing::FullFuse), What::Fire(Firing::Slump)];
    (prop::sample::select(whats.to_vec()), 0..20_u32, 0..20_i32).prop_map(|(what, after, days)| Wish {
        what,
        after,
        not_before: TODAY.saturating_add(jiff::Span::new().days(days)),
    })
}

impl Asked {
    fn order(&self) -> (Order, Loads) {
        let mut order = Order::of(on_a_stem(), 1);
        let line = order.lines[0].clone();
        order.lines = self
            .lines
            .iter()
            .map(|count| dappledome::orders::model::Line { count: *count, ..line.clone() })
            .collect();
        order.work.fires_by_day = self.by_day;
        order.work.a_day = Minutes(self.a_day);
        order.work.days = self.workdays.clone();
        order.wishes = self.wishes.clone();
        let [cut, sift, mount] = self.minutes.map(Minutes);
        order.work.minutes = StepMinutes { cut, sift, load: Minutes(2.0), mount };
        let of: Vec<_> = self.lines.iter().copied().enumerate().collect();
        let loads = fired(vec![
            batch(Firing::FullFuse, &of, self.holds.0, self.hours.0, false),
            batch(Firing::Slump, &of, self.holds.1, self.hours.1, true),
        ]);
        (order, loads)
    }
}

fn day_of(date: Date) -> i32 {
    TODAY.until(date).unwrap().get_days()
}

/// When a firing is on: hours from today's midnight.
fn hours(doing: &Doing) -> Option<(f64, f64)> {
    doing.fires.map(|(at, takes)| {
        let on = f64::from(day_of(doing.day)) * 24.0 + at;
        (on, on + takes)
    })
}

/// How many of a line have been through something by a day, that day included.
fn by(days: &Days, what: What, line: usize, day: Date) -> u32 {
    let done = days.doings.iter().filter(|doing| doing.what == what && doing.day <= day);
    done.flat_map(|doing| &doing.of).filter(|(of, _)| *of == line).map(|(_, count)| count).sum()
}

/// Nothing is begun before the day that was chosen for it.
fn as_wished(asked: &Asked, days: &Days) {
    for wish in &asked.wishes {
        let mut before = 0;
        for doing in days.doings.iter().filter(|doing| doing.what == wish.what) {
            assert!(before < wish.after || doing.day >= wish.not_before, "{wish:?}: {doing:?}");
            before += doing.pieces;
        }
    }
}

fn lawful(asked: &Asked, days: &Days) {
    let works = |day: Date| asked.workdays.iter().any(|workday| workday.weekday() == day.weekday());
    assert!(days.doings.iter().all(|doing| works(doing.day)), "only on workdays");
    let mut firings: Vec<(f64, f64)> = days.doings.iter().filter_map(hours).collect();
    firings.sort_by(|a, b| a.0.total_cmp(&b.0));
    assert!(
        firings.windows(2).all(|pair| pair[0].1 <= pair[1].0 + 1e-9),
        "no kiln twice at one time: {firings:?}"
    );
    let last = firings.iter().map(|firing| firing.1).fold(0.0, f64::max);
    let all_steps = [What::Cut, What::Sift, What::Fire(Firing::FullFuse), What::Fire(Firing::Slump)];
    for (line, count) in asked.lines.iter().enumerate() {
        for what in all_steps {
            assert_eq!(by(days, what, line, Date::MAX), *count, "every piece goes through {what:?}");
        }
        for doing in &days.doings {
            let day = doing.day;
            assert!(
                by(days, What::Sift, line, day) <= by(days, What::Cut, line, day),
                "sifted before it is cut"
            );
            let fused = by(days, What::Fire(Firing::FullFuse), line, day);
            assert!(fused <= by(days, What::Sift, line, day), "fused before it is sifted");
            let Some((on, _)) = hours(doing).filter(|_| doing.what == What::Fire(Firing::Slump)) else {
                continue;
            };
            let out = days.doings.iter().filter(|other| other.what == What::Fire(Firing::FullFuse));
            let out = out.filter(|other| hours(other).is_some_and(|(_, opened)| opened <= on + 1e-9));
            let out: u32 = out.flat_map(|other| &other.of).filter(|of| of.0 == line).map(|of| of.1).sum();
            assert!(by(days, doing.what, line, day) <= out, "slumped before it is out of the fuse");
        }
    }
    for doing in days.doings.iter().filter(|doing| doing.what == What::Mount) {
        assert!(f64::from(day_of(doing.day)) * 24.0 + 12.0 >= last - 1e-9, "mounted in the kiln");
    }
    not_more_than_a_day(asked, days);
    assert!(days.doings.iter().all(|doing| doing.day <= days.ready));
}

/// By no evening has more been done than the workdays until then have minutes.
fn not_more_than_a_day(asked: &Asked, days: &Days) {
    let [cut, sift, mount] = asked.minutes;
    let mut done: BTreeMap<Date, f64> = BTreeMap::new();
    for doing in &days.doings {
        let minutes = match doing.what {
            What::Cut => cut,
            What::Sift => sift,
            What::Mount => mount,
            What::Fire(_) => 0.0,
        };
        *done.entry(doing.day).or_default() += minutes * f64::from(doing.pieces);
    }
    let mut sum = 0.0;
    for (day, minutes) in done {
        sum += minutes;
        let until = (0..=day_of(day)).map(|after| TODAY.saturating_add(jiff::Span::new().days(after)));
        let workdays = until
            .filter(|day| asked.workdays.iter().any(|workday| workday.weekday() == day.weekday()))
            .count();
        assert!(sum <= asked.a_day * workdays as f64 + 1e-3, "{sum} minutes by {day}");
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 300, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn no_order_breaks_the_calendar(asked in asked()) {
        let (order, loads) = asked.order();
        let days = planned(&order, &loads);
        lawful(&asked, &days);
        as_wished(&asked, &days);
        for earlier in &days.earlier {
            prop_assert!(earlier.ready < days.ready && earlier.days > 0, "{:?}", earlier);
        }
    }

    #[test]
    fn one_piece_more_is_never_ready_earlier(asked in asked(), which in 0..4_usize, other in prop::option::of(asked())) {
        let (order, loads) = asked.order();
        let mut more = asked.clone();
        let which = which % more.lines.len();
        more.lines[which] += 1;
        let (more_order, more_loads) = more.order();
        // Another order, due first, may have taken nights.
        let taken = other.as_ref().map(|other| {
            let (order, loads) = other.order();
            (Order { due: Some(TODAY), ..order }, loads)
        });
        let ready = |order: &Order, loads: &Loads, made: &[u32]| {
            let beside = taken.as_ref().zip(other.as_ref()).map(|((order, loads), other)| Job { order, loads, made: &other.lines });
            let job = Job { order, loads, made };
            let beside: Vec<Job> = beside.into_iter().collect();
            days(&job, &beside, TODAY).unwrap().ready
        };
        let order = Order { due: Some(Date::MAX), ..order };
        let more_order = Order { due: Some(Date::MAX), ..more_order };
        let (before, after) = (ready(&order, &loads, &asked.lines), ready(&more_order, &more_loads, &more.lines));
        prop_assert!(after >= before, "{before} with, {after} with one more");
    }

    #[test]
    fn two_orders_never_have_the_kiln_at_one_time(one in asked(), other in asked()) {
        let ((mut first, first_loads), (mut second, second_loads)) = (one.order(), other.order());
        (first.due, second.due) = (Some(date(2027, 1, 10)), Some(date(2027, 1, 20)));
        let a = Job { order: &first, loads: &first_loads, made: &one.lines };
        let b = Job { order: &second, loads: &second_loads, made: &other.lines };
        let (of_a, of_b) = (days(&a, &[b], TODAY).unwrap(), days(&b, &[a], TODAY).unwrap());
        let mut firings: Vec<_> = of_a.doings.iter().chain(&of_b.doings).filter_map(hours).collect();
        firings.sort_by(|a, b| a.0.total_cmp(&b.0));
        prop_assert!(firings.windows(2).all(|pair| pair[0].1 <= pair[1].0 + 1e-9), "{:?}", firings);
        prop_assert_eq!((of_a.others[0].ready, of_b.others[0].ready), (of_b.ready, of_a.ready));
    }
}
