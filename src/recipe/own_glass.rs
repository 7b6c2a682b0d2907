//! A glass as it lies on the maker's shelf.

use crate::base::data::data;
use crate::glass::kind::Glass;
use serde::{Deserialize, Serialize};
use serde_json::Value;

data! {
    /// A glass of the maker's own.
    pub struct OwnGlass {
        /// What it is.
        pub glass: Glass,
        /// Whether it is used up or given up: kept, but not offered any more.
        #[serde(default)]
        pub retired: bool,
        /// What a newer Dappledome says of it, if its file came from one.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        pub unread: Option<Unread>,
    }
}

data! {
    /// What a newer Dappledome says of a glass and this one does not read.
    pub struct Unread {
        /// The version of its file.
        pub version: u32,
        /// The fields, as they lie in the glass's entry.
        pub fields: Value,
    }
}

impl Unread {
    /// How many lines it would take in a file.
    pub fn lines(&self) -> usize {
        lines(&self.fields)
    }
}

fn lines(value: &Value) -> usize {
    match value {
        Value::Array(items) if !items.is_empty() => items.iter().map(lines).sum(),
        Value::Object(fields) if !fields.is_empty() => fields.values().map(lines).sum(),
        _ => 1,
    }
}
