//! Pipes, stoppers and wind.

use super::table::{near, words};
use dappledome::base::units::Mm;
use dappledome::recipe::wind::Wind;
use dappledome::recipe::{Pipe, Stem};

/// Bores from ASTM D1785, stoppers from the table of laboratory stoppers, depths worked out from both elsewhere
/// (`stopper_pipe.csv`): size, outside, bores, number, faces, how deep, how far out.
#[test]
fn pipes_and_stoppers_are_those_of_the_tables() {
    let mut rows = 0;
    for cells in words("shop/stopper_pipe.csv") {
        let row = &cells[0];
        let number = |at: usize| cells[at].parse::<f64>().unwrap();
        let pipe = Pipe::ALL.into_iter().find(|pipe| pipe.nominal().replace(' ', "-") == *row).unwrap();
        near(row, pipe.outside(), number(1), 0.011);
        for (at, bore) in pipe.bore().into_iter().enumerate() {
            near(row, bore, number(2 + at), 0.006);
        }
        let stopper = pipe.stoppers().find(|stopper| f64::from(stopper.number) == number(5)).expect(row);
        assert_eq!((stopper.top, stopper.bottom), (number(6), number(7)), "{row}");
        near(row, stopper.inserted(pipe)[1], number(8), 0.06);
        rows += 1;
    }
    assert_eq!(rows, 7);
}

/// By the rule alone (narrow end below the least bore, wide end above the most), worked out by hand from both tables: No. 8 goes
/// into 1 1/4 in as well, 4.8 mm deep.
#[test]
fn what_fits_fits_every_bore_of_its_size() {
    let fitting = Pipe::ALL.map(|pipe| pipe.stoppers().map(|stopper| stopper.number).collect::<Vec<_>>());
    assert_eq!(fitting, [vec![0, 1], vec![3], vec![5], vec![7, 8], vec![9], vec![11]]);
    assert_eq!(Pipe::ALL.map(|pipe| pipe.deepest().number), [0, 3, 5, 7, 9, 11]);
}

/// A cup of 150 mm on 0.9 m of 3/4 in pipe at 20 m/s, by hand: 0.5 x 1.225 x 400 = 245 Pa; on the cup 245 x 1.42 x 0.01767 = 6.15 N,
/// on the pipe 245 x 1.2 x 0.9 x 0.02667 = 7.06 N; 6.15 x 0.9 + 7.06 x 0.45 = 8.71 N m; over 1222 mm³ 7.1 MPa. Depths by IBC
/// 1807.3.2.1 in sand of 150 psf/ft, doubled: 0.263, 0.354, 0.441, 0.523 m at 10, 15, 20, 25 m/s.
#[test]
fn wind_bends_and_wants_depth() {
    let stem = Stem { length: Mm(900.0), pipe: Pipe::ThreeQuarters, ..Stem::default() };
    let at = |speed| Wind::at(speed, &stem, Mm(150.0));
    near("force", at(20.0).force, 13.21, 0.01);
    near("moment", at(20.0).moment, 8.71, 0.005);
    near("section", Pipe::ThreeQuarters.section_modulus(), 1222.0, 1.0);
    near("stress", at(20.0).stress, 7.1, 0.05);
    for (speed, depth) in [(10.0, 0.263), (15.0, 0.354), (20.0, 0.441), (25.0, 0.523)] {
        near("depth", at(speed).depth.0 / 1000.0, depth, 0.001);
    }
}
