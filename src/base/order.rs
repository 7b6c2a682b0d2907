//! Sorting by a number. Every list of the program is sorted through the one function here: each kind of list that the
//! library sorts by itself would weigh another 3 kB in the browser.

/// The positions of `n` things in rising order of their numbers; equal ones stay as they were.
#[inline(never)]
pub fn rising(n: usize, number: &dyn Fn(usize) -> f64) -> Vec<usize> {
    let mut all: Vec<(f64, usize)> = (0..n).map(|at| (number(at), at)).collect();
    all.sort_by(|a, b| a.0.total_cmp(&b.0));
    all.into_iter().map(|(_, at)| at).collect()
}

/// Sorts a list in rising order of a number; equal ones stay as they were.
pub fn sort<T: Clone>(list: &mut [T], number: impl Fn(&T) -> f64) {
    let order = rising(list.len(), &|at| number(&list[at]));
    let sorted: Vec<T> = order.into_iter().map(|at| list[at].clone()).collect();
    list.clone_from_slice(&sorted);
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn equal_ones_stay_as_they_were() {
        let mut list = [(2.0, 'a'), (1.0, 'b'), (2.0, 'c'), (f64::NEG_INFINITY, 'd'), (1.0, 'e')];
        sort(&mut list, |item| item.0);
        assert_eq!(list.map(|item| item.1), ['d', 'b', 'e', 'a', 'c']);
        assert_eq!(rising(0, &|_| 0.0), Vec::<usize>::new());
    }
}
