//! Owns the reading of answers, from JSON text to plain data. It goes by way of a tree of values and hands every structure its
//! fields by name only: read straight, each type would be compiled for lists and for bytes too, and the page twice as large.

use serde::{
    Deserializer,
    de::{
        self, DeserializeOwned, DeserializeSeed, EnumAccess, IntoDeserializer, MapAccess, SeqAccess, VariantAccess,
        Visitor, value::StrDeserializer,
    },
    forward_to_deserialize_any,
};
use serde_json::Value;
use std::fmt;

/// What is wrong with an answer.
#[derive(Debug)]
pub struct Wrong(String);

impl fmt::Display for Wrong {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

impl std::error::Error for Wrong {}

impl de::Error for Wrong {
    fn custom<T: fmt::Display>(says: T) -> Self {
        Self(says.to_string())
    }
}

/// Reads an answer.
///
/// # Errors
/// What is wrong with the text, in the reader's words.
pub fn read<T: DeserializeOwned>(text: &str) -> Result<T, Wrong> {
    from(&serde_json::from_str(text).map_err(|error| Wrong(error.to_string()))?)
}

/// Reads what is a tree of values already.
///
/// # Errors
/// What is wrong with it, in the reader's words.
pub fn from<T: DeserializeOwned>(value: &Value) -> Result<T, Wrong> {
    T::deserialize(Reader(value))
}

#[derive(Clone, Copy)]
struct Reader<'a>(&'a Value);

impl Reader<'_> {
    #[cold]
    fn wrong(self, wanted: &str) -> Wrong {
        Wrong(format!("{wanted} wanted, something else found"))
    }
}

impl<'de> Deserializer<'de> for Reader<'de> {
    type Error = Wrong;

    fn deserialize_any<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Wrong> {
        match self.0 {
            Value::Null => visitor.visit_unit(),
            Value::Bool(yes) => visitor.visit_bool(*yes),
            Value::String(text) => visitor.visit_borrowed_str(text),
            Value::Array(list) => visitor.visit_seq(Items(list.iter())),
            Value::Object(map) => visitor.visit_map(Entries(map.iter(), None)),
            Value::Number(number) => match (number.as_u64(), number.as_i64()) {
                (Some(whole), _) => visitor.visit_u64(whole),
                (None, Some(whole)) => visitor.visit_i64(whole),
                _ => self.deserialize_f64(visitor),
            },
        }
    }

    fn deserialize_f64<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Wrong> {
        visitor.visit_f64(self.0.as_f64().ok_or_else(|| self.wrong("a number"))?)
    }

    fn deserialize_u64<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Wrong> {
        visitor.visit_u64(self.0.as_u64().ok_or_else(|| self.wrong("a whole number"))?)
    }

    fn deserialize_u32<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Wrong> {
        self.deserialize_u64(visitor)
    }

    fn deserialize_bool<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Wrong> {
        visitor.visit_bool(self.0.as_bool().ok_or_else(|| self.wrong("true or false"))?)
    }

    fn deserialize_str<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Wrong> {
        visitor.visit_borrowed_str(self.0.as_str().ok_or_else(|| self.wrong("text"))?)
    }

    fn deserialize_string<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Wrong> {
        self.deserialize_str(visitor)
    }

    fn deserialize_seq<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Wrong> {
        let list = self.0.as_array().ok_or_else(|| self.wrong("a list"))?;
        visitor.visit_seq(Items(list.iter()))
    }

    fn deserialize_tuple<V: Visitor<'de>>(self, _: usize, visitor: V) -> Result<V::Value, Wrong> {
        self.deserialize_seq(visitor)
    }

    fn deserialize_map<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Wrong> {
        let map = self.0.as_object().ok_or_else(|| self.wrong("an object"))?;
        visitor.visit_map(Entries(map.iter(), None))
    }

    fn deserialize_struct<V: Visitor<'de>>(
        self,
        _: &'static str,
        _: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, Wrong> {
        self.deserialize_map(visitor)
    }

    fn deserialize_option<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Wrong> {
        if self.0.is_null() { visitor.visit_none() } else { visitor.visit_some(self) }
    }

    fn deserialize_newtype_struct<V: Visitor<'de>>(self, _: &'static str, visitor: V) -> Result<V::Value, Wrong> {
        visitor.visit_newtype_struct(self)
    }

    fn deserialize_enum<V: Visitor<'de>>(
        self,
        _: &'static str,
        _: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, Wrong> {
        match self.0 {
            Value::String(name) => visitor.visit_enum(Variant(name, Reader(&Value::Null))),
            Value::Object(map) => {
                let (name, value) = map.iter().next().ok_or_else(|| self.wrong("a choice"))?;
                visitor.visit_enum(Variant(name, Reader(value)))
            }
            _ => Err(self.wrong("a choice")),
        }
    }

    forward_to_deserialize_any! {
        i8 i16 i32 i64 i128 u8 u16 u128 f32 char bytes byte_buf unit unit_struct tuple_struct identifier ignored_any
    }
}

struct Items<'de>(std::slice::Iter<'de, Value>);

impl<'de> SeqAccess<'de> for Items<'de> {
    type Error = Wrong;

    fn next_element_seed<T: DeserializeSeed<'de>>(&mut self, seed: T) -> Result<Option<T::Value>, Wrong> {
        self.0.next().map(|value| seed.deserialize(Reader(value))).transpose()
    }

    fn size_hint(&self) -> Option<usize> {
        Some(self.0.len())
    }
}

/// The entries left, and the value of the one whose key was read last.
struct Entries<'de>(serde_json::map::Iter<'de>, Option<&'de Value>);

impl<'de> MapAccess<'de> for Entries<'de> {
    type Error = Wrong;

    fn next_key_seed<K: DeserializeSeed<'de>>(&mut self, seed: K) -> Result<Option<K::Value>, Wrong> {
        let Some((key, value)) = self.0.next() else { return Ok(None) };
        self.1 = Some(value);
        seed.deserialize(name(key)).map(Some)
    }

    fn next_value_seed<T: DeserializeSeed<'de>>(&mut self, seed: T) -> Result<T::Value, Wrong> {
        // Serde asks for a value only after its key.
        seed.deserialize(Reader(self.1.take().unwrap_or(&Value::Null)))
    }
}

struct Variant<'de>(&'de str, Reader<'de>);

impl<'de> EnumAccess<'de> for Variant<'de> {
    type Error = Wrong;
    type Variant = Reader<'de>;

    fn variant_seed<T: DeserializeSeed<'de>>(self, seed: T) -> Result<(T::Value, Reader<'de>), Wrong> {
        Ok((seed.deserialize(name(self.0))?, self.1))
    }
}

impl<'de> VariantAccess<'de> for Reader<'de> {
    type Error = Wrong;

    fn unit_variant(self) -> Result<(), Wrong> {
        Ok(())
    }

    fn newtype_variant_seed<T: DeserializeSeed<'de>>(self, seed: T) -> Result<T::Value, Wrong> {
        seed.deserialize(self)
    }

    fn tuple_variant<V: Visitor<'de>>(self, _: usize, visitor: V) -> Result<V::Value, Wrong> {
        self.deserialize_seq(visitor)
    }

    fn struct_variant<V: Visitor<'de>>(self, _: &'static [&'static str], visitor: V) -> Result<V::Value, Wrong> {
        self.deserialize_map(visitor)
    }
}

fn name(text: &str) -> StrDeserializer<'_, Wrong> {
    text.into_deserializer()
}
