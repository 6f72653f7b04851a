//! Amounts: numbers, quantities, measures, and why one is refused.
//!
//! A parser here answers in three ways: it has read something, this is no amount
//! (`Err::Error`), or it is one that must not be guessed at (`Err::Failure`).

use nom::IResult;
use nom::error::{ErrorKind, ParseError};

mod follow;
mod measure;
mod mend;
mod number;
pub(crate) mod quantity;
mod refused;
mod second;
pub mod unit;

pub(crate) use measure::{Measured, Sum, measure, placed, sum};
pub(crate) use number::{Number, Shape, number};
pub(crate) use quantity::{about, counted, quantity};
pub(crate) use refused::tell;
pub(crate) use second::{Bracket, bracket};

/// What an amount's parser gives.
pub(crate) type Read<'t, T> = IResult<&'t str, T, Refused<'t>>;

/// The words that are refused, and why.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Refused<'t> {
    /// The words, a slice of the line.
    pub at: &'t str,
    pub why: Why,
}

/// Why an amount is refused.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Why {
    /// It is none at all.
    NotThis,
    /// Nothing at all.
    Zero,
    /// A range from nothing.
    FromZero,
    /// A range that falls or stands still.
    Falls,
    /// `3/0`
    ZeroDenominator,
    /// `1/128`
    TooFine,
    /// `3/2`
    Improper(i64, i64),
    /// More digits than an amount can have.
    TooLong,
    /// `1,000` or `1.000`
    Thousands,
    /// Digits of another script.
    ForeignDigits,
    /// `-30 ml`
    Sign,
    /// `2 3 oz`
    TwoNumbers,
    /// `30 ml 1 oz`
    TwoAmounts,
    /// `7op`
    Touching,
    /// A sign or word that cannot stand behind a number.
    AfterNumber,
    /// A sign or word that cannot stand behind a unit.
    AfterUnit,
    /// A sum with a term that is no measure.
    SumTerm,
}

impl<'t> Refused<'t> {
    /// An amount that must not be guessed at.
    pub(crate) const fn fail(at: &'t str, why: Why) -> nom::Err<Self> {
        nom::Err::Failure(Self { at, why })
    }

    /// No amount.
    pub(crate) const fn none(at: &'t str) -> nom::Err<Self> {
        nom::Err::Error(Self { at, why: Why::NotThis })
    }
}

impl<'t> ParseError<&'t str> for Refused<'t> {
    fn from_error_kind(input: &'t str, _: ErrorKind) -> Self {
        Self { at: input, why: Why::NotThis }
    }

    fn append(_: &'t str, _: ErrorKind, other: Self) -> Self {
        other
    }
}
