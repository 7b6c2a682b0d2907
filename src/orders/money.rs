//! The sums of a price, each a formula of its own.

/// What one sold piece costs if a share of all that are made breaks: the sum over what is left.
pub fn with_breakage(sum: f64, breakage: f64) -> f64 {
    sum / (1.0 - breakage)
}

/// The price of something that costs so much, at a margin (a share of the price).
pub fn at_margin(cost: f64, margin: f64) -> f64 {
    cost / (1.0 - margin)
}

/// The price of something that costs so much, at a markup (a share of the cost).
pub fn at_markup(cost: f64, markup: f64) -> f64 {
    cost * (1.0 + markup)
}

/// Money to the hundredth, so that what is asked for several adds up as it is written.
pub fn to_the_hundredth(sum: f64) -> f64 {
    (sum * 100.0).round() / 100.0
}

/// What is gained at a price, as a share of the price. None where there is no price.
pub fn margin(price: f64, cost: f64) -> Option<f64> {
    (price > 0.0).then(|| (price - cost) / price)
}

/// The same as a share of the cost. None where nothing is paid.
pub fn markup(price: f64, cost: f64) -> Option<f64> {
    (cost > 0.0).then(|| (price - cost) / cost)
}

/// What has to be charged by card so that so much is left.
pub fn by_card(net: f64, rate: f64, fixed: f64) -> f64 {
    (net + fixed) / (1.0 - rate)
}

/// How many pieces pay for the fee of a fair, if each is sold at a price, by card, and costs so much. None if no number does.
pub fn break_even(fee: f64, price: f64, (rate, fixed): (f64, f64), cost: f64) -> Option<f64> {
    let each = price * (1.0 - rate) - fixed - cost;
    (each > 0.0).then(|| fee / each)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn near(got: f64, want: f64) {
        assert!((got - want).abs() < 0.005, "{got}, not {want}");
    }

    /// Worked by hand; the formulas are those of any book on prices.
    #[test]
    fn worked_prices_come_out() {
        near(with_breakage(18.40, 0.08), 20.00);
        for (share, price, of_price) in [(0.5, 27.60, 1.0 / 3.0), (1.0, 36.80, 0.5), (1.5, 46.00, 0.6)] {
            near(at_markup(18.40, share), price);
            near(at_margin(18.40, of_price), price);
            near(margin(price, 18.40).unwrap(), of_price);
            near(markup(price, 18.40).unwrap(), share);
        }
        near(by_card(40.0, 0.029, 0.30), 41.50);
        near(break_even(250.0, 48.0, (0.029, 0.30), 18.40).unwrap(), 8.96);
    }

    #[test]
    fn what_cannot_be_reckoned_is_none() {
        assert_eq!((margin(0.0, 5.0), markup(5.0, 0.0)), (None, None));
        assert_eq!(break_even(250.0, 18.0, (0.029, 0.30), 18.40), None, "each sale loses");
    }
}
