//! A shelf file from a newer Dappledome: its glasses are read as far as this one knows them, and what it does not know of them is kept and
//! written back.

use super::own_glass::{OwnGlass, Unread};
use crate::glass::kind::Glass;
use serde::Deserialize;
use serde_json::{Map, Value, from_value};

/// The glasses of a newer file. None where it says something that cannot be kept with a glass, or of a glass no id, name or optics.
pub(super) fn read(text: &str) -> Option<Vec<OwnGlass>> {
    let Value::Object(mut file) = serde_json::from_str(text).ok()? else { return None };
    let version = file.remove("version")?.as_u64()?.try_into().ok()?;
    let Value::Array(entries) = file.remove("glasses")? else { return None };
    if !file.is_empty() {
        return None;
    }
    entries.into_iter().map(|entry| own(entry, version)).collect()
}

fn own(entry: Value, version: u32) -> Option<OwnGlass> {
    let Value::Object(mut entry) = entry else { return None };
    let Value::Object(glass) = entry.remove("glass")? else { return None };
    let (glass, of_glass) = known::<Glass>(glass, &["id", "name", "material"]);
    entry.insert("glass".into(), glass);
    let (own, mut fields) = known::<OwnGlass>(entry, &["glass"]);
    if !of_glass.is_empty() {
        fields.insert("glass".into(), of_glass.into());
    }
    let own = from_value::<OwnGlass>(own).ok()?;
    let unread = (!fields.is_empty()).then(|| Unread { version, fields: fields.into() });
    Some(OwnGlass { unread, ..own })
}

/// What of an object can be read as a `T`, beside fields that a `T` must have; and the rest.
fn known<T: for<'a> Deserialize<'a>>(
    object: Map<String, Value>,
    must: &[&str],
) -> (Value, Map<String, Value>) {
    let (mut known, others): (Map<_, _>, Map<_, _>) =
        object.into_iter().partition(|(key, _)| must.contains(&key.as_str()));
    let least = known.clone();
    let mut rest = Map::new();
    for (key, value) in others {
        let mut with = least.clone();
        with.insert(key.clone(), value.clone());
        let into = if from_value::<T>(with.into()).is_ok() { &mut known } else { &mut rest };
        into.insert(key, value);
    }
    (known.into(), rest)
}

/// An entry as it is written, with what was kept unread in its place again.
pub(super) fn written(own: &OwnGlass) -> Value {
    // Through text: as values, numbers in single precision would have the digits of double.
    let known = serde_json::to_string(&OwnGlass { unread: None, ..own.clone() }).unwrap_or_default();
    let mut entry = serde_json::from_str(&known).unwrap_or_default();
    if let Some(Unread { fields, .. }) = &own.unread {
        put_back(&mut entry, fields);
    }
    entry
}

fn put_back(into: &mut Value, kept: &Value) {
    match (into, kept) {
        (Value::Object(into), Value::Object(kept)) => {
            for (key, kept) in kept {
                put_back(into.entry(key).or_insert(Value::Null), kept);
            }
        }
        (into, kept) => into.clone_from(kept),
    }
}
