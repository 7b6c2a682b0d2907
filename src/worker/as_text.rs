//! A recipe in a message: the text of its file.

use crate::recipe::{Recipe, file};
use serde::de::Error;
use serde::{Deserialize, Deserializer, Serializer};

pub fn serialize<S: Serializer>(recipe: &Recipe, to: S) -> Result<S::Ok, S::Error> {
    to.serialize_str(&file::write(recipe))
}

pub fn deserialize<'de, D: Deserializer<'de>>(from: D) -> Result<Recipe, D::Error> {
    file::read(&String::deserialize(from)?).map_err(D::Error::custom)
}
