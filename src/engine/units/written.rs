//! Owns the writing of JSON: numbers by the standard library's shortest digits, which are there anyway for people; the writer
//! JSON brings along would add 11 kB of tables to the page's program.

use serde::Serialize;
use serde_json::ser::{Formatter, PrettyFormatter, Serializer};
use std::io::{Result, Write};

/// A value as JSON text in one line. A number that is not finite is written as null.
///
/// # Errors
/// What cannot be written as JSON: a map whose keys are no text.
pub fn line(value: &impl Serialize) -> serde_json::Result<String> {
    let mut out = Vec::new();
    value.serialize(&mut Serializer::with_formatter(&mut out, Line))?;
    Ok(String::from_utf8_lossy(&out).into_owned())
}

/// A tree of values as JSON text in one line; its keys are text, so it can always be written.
#[must_use]
pub fn json(value: &serde_json::Value) -> String {
    line(value).unwrap_or_default()
}

/// The same for people: a value to a line.
#[must_use]
pub fn lines(value: &serde_json::Value) -> String {
    let mut out = Vec::new();
    let written = value.serialize(&mut Serializer::with_formatter(&mut out, Lines(PrettyFormatter::new())));
    written.map_or_else(|_| String::new(), |()| String::from_utf8_lossy(&out).into_owned())
}

struct Line;

impl Formatter for Line {
    fn write_f64<W: ?Sized + Write>(&mut self, out: &mut W, number: f64) -> Result<()> {
        write!(out, "{number:?}")
    }

    fn write_f32<W: ?Sized + Write>(&mut self, out: &mut W, number: f32) -> Result<()> {
        write!(out, "{number:?}")
    }
}

struct Lines(PrettyFormatter<'static>);

macro_rules! as_pretty {
    ($($name:ident($($first:ident)?);)+) => {
        $(fn $name<W: ?Sized + Write>(&mut self, out: &mut W $(, $first: bool)?) -> Result<()> {
            self.0.$name(out $(, $first)?)
        })+
    };
}

impl Formatter for Lines {
    fn write_f64<W: ?Sized + Write>(&mut self, out: &mut W, number: f64) -> Result<()> {
        Line.write_f64(out, number)
    }

    fn write_f32<W: ?Sized + Write>(&mut self, out: &mut W, number: f32) -> Result<()> {
        Line.write_f32(out, number)
    }

    as_pretty! {
        begin_array();
        end_array();
        begin_array_value(first);
        end_array_value();
        begin_object();
        end_object();
        begin_object_key(first);
        begin_object_value();
        end_object_value();
    }
}

#[cfg(test)]
mod tests {
    use super::{json, lines};
    use serde_json::{Value, json as value};

    #[test]
    fn what_is_written_is_read_back_bit_by_bit() {
        let all = value!({ "n": [0.1, 1.0, -0.0, 1e300, 5e-324, 0.30000000000000004, 12, -3, 1e16], "t": "a\"b", "e": [], "o": {} });
        assert_eq!(serde_json::from_str::<Value>(&json(&all)).ok().as_ref(), Some(&all));
        assert_eq!(lines(&all).lines().count(), 16);
        assert_eq!(serde_json::from_str::<Value>(&lines(&all)).ok().as_ref(), Some(&all));
    }
}
