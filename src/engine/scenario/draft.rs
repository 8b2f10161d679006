//! Owns the reading of JSON text into a draft. Unlike a plain JSON reader it notices a field that stands twice in one object.

use super::says;
use serde::de::{DeserializeSeed, Deserializer, Error, MapAccess, SeqAccess, Visitor};
use serde_json::{Map, Number, Value};
use std::fmt;

/// Most doubles kept.
const MOST_DOUBLES: usize = 50;

/// A draft and the paths of fields that stand twice; of such a field the last value is kept.
#[derive(Debug, Default)]
pub struct Draft {
    /// The JSON value.
    pub value: Value,
    /// Paths of doubled fields.
    pub doubles: Vec<String>,
}

/// Reads a draft.
///
/// # Errors
/// The JSON reader's own error, with line and column, where the text is not JSON.
pub fn parse(text: &str) -> Result<Draft, serde_json::Error> {
    let mut notes = Notes::default();
    let mut reader = serde_json::Deserializer::from_str(text);
    let value = Node(&mut notes).deserialize(&mut reader)?;
    reader.end()?;
    Ok(Draft { value, doubles: notes.doubles })
}

/// Where the reader stands, and what it noticed.
#[derive(Default)]
struct Notes {
    place: Vec<String>,
    doubles: Vec<String>,
}

impl Notes {
    fn note_double(&mut self) {
        if self.doubles.len() < MOST_DOUBLES {
            self.doubles.push(self.place.join(".").replace(".[", "["));
        }
    }
}

struct Node<'a>(&'a mut Notes);

impl<'de> DeserializeSeed<'de> for Node<'_> {
    type Value = Value;

    fn deserialize<D: Deserializer<'de>>(self, reader: D) -> Result<Value, D::Error> {
        reader.deserialize_any(self)
    }
}

impl<'de> Visitor<'de> for Node<'_> {
    type Value = Value;

    fn expecting(&self, f: &mut fmt::Formatter) -> fmt::Result {
        f.write_str("JSON")
    }

    fn visit_bool<E>(self, value: bool) -> Result<Value, E> {
        Ok(Value::Bool(value))
    }

    fn visit_i64<E>(self, value: i64) -> Result<Value, E> {
        Ok(value.into())
    }

    fn visit_u64<E>(self, value: u64) -> Result<Value, E> {
        Ok(value.into())
    }

    fn visit_f64<E: Error>(self, value: f64) -> Result<Value, E> {
        Number::from_f64(value).map(Value::Number).ok_or_else(|| E::custom("a number is too large"))
    }

    fn visit_str<E>(self, value: &str) -> Result<Value, E> {
        Ok(Value::String(value.to_owned()))
    }

    fn visit_unit<E>(self) -> Result<Value, E> {
        Ok(Value::Null)
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut items: A) -> Result<Value, A::Error> {
        let mut list = Vec::new();
        loop {
            self.0.place.push(format!("[{}]", list.len()));
            let item = items.next_element_seed(Node(self.0))?;
            self.0.place.pop();
            match item {
                Some(item) => list.push(item),
                None => return Ok(Value::Array(list)),
            }
        }
    }

    fn visit_map<A: MapAccess<'de>>(self, mut entries: A) -> Result<Value, A::Error> {
        let mut object = Map::new();
        while let Some(key) = entries.next_key::<String>()? {
            self.0.place.push(says::quoted(&key));
            if object.contains_key(&key) {
                self.0.note_double();
            }
            let value = entries.next_value_seed(Node(self.0))?;
            self.0.place.pop();
            object.insert(key, value);
        }
        Ok(Value::Object(object))
    }
}
