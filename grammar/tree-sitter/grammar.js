// The notation of `.pour` files. The written grammar is one folder up; what needs a look to the
// end of a word or a line is decided in src/scanner.c, the words come from vocabulary.json.

const vocabulary = require("./vocabulary.json");

const SPACE = "\\t\\x0B\\x0C\\x20\\x85\\xA0\\u1680\\u2000-\\u200A\\u2028\\u2029\\u202F\\u205F\\u3000";
const UNSEEN =
  "\\x00-\\x08\\x0E-\\x1F\\x7F-\\x84\\x86-\\x9F\\xAD\\u061C\\u180E\\u200B-\\u200F\\u202A-\\u202E" +
  "\\u2060-\\u206F\\uFEFF\\uFFF9-\\uFFFB";
const SIGN = ",;().";

/** Words in any case, a hyphen for a blank. */
const words = (name) =>
  token(
    choice(
      ...vocabulary[name].map(
        (word) =>
          new RegExp(word.replace(/[a-z]/g, (c) => `[${c}${c.toUpperCase()}]`).replaceAll(" ", "[ -]")),
      ),
    ),
  );

/** Anything up to the end of the line or its comment. */
const text = ($) => repeat1(choice($._word, ",", ";", "(", ")", "."));

/** Words of which one says what they are, and the scanner takes as many as it counted. */
const counted = ($, start) => seq(start, $._rest);

module.exports = grammar({
  name: "pour",

  extras: (_) => [new RegExp(`[${SPACE}${UNSEEN}]+`)],

  externals: ($) => [
    $._heading_start,
    $._field_start,
    $._step_start,
    $._ingredient_start,
    $._turned_start,
    $._unreadable_start,
    $.comment,
    $._end_of_file,
    $._bullet,
    $._adverb,
    $._technique,
    $._joint,
    $._quantity,
    $._measured,
    $._unit,
    $._plus,
    $._amount_word,
    $._vague,
    $._part_of,
    $._of,
    $._each,
    $._second_open,
    $._bracket_open,
    $._role,
    $._last_role,
    $._property,
    $._duration,
    $._temperature,
    $._rest,
    $._error_recovery,
  ],

  rules: {
    file: ($) => seq(repeat($._line), repeat($.entry)),

    entry: ($) => seq($.heading, optional($.comment), $._end, repeat($._line)),

    heading: ($) =>
      seq($._heading_start, field("kind", $.kind), ":", optional(field("name", $.entry_name))),
    kind: (_) => words("heading"),
    entry_name: text,

    _line: ($) =>
      choice(
        $._newline,
        seq($.comment, $._end),
        seq(choice($.field, $.ingredient, $.step, $.unreadable), optional($.comment), $._end),
      ),
    _end: ($) => choice($._newline, $._end_of_file),
    _newline: (_) => /\r\n|\n|\r/,

    field: ($) =>
      seq(
        $._field_start,
        choice(
          seq(field("key", alias($.text_key, $.key)), ":", optional(field("value", $.text))),
          seq(field("key", alias($.value_key, $.key)), ":", optional(field("value", $.value))),
          seq(field("key", $.unknown_key), ":", optional(field("value", $.text))),
        ),
      ),
    text_key: (_) => words("text key"),
    value_key: (_) => words("value key"),
    unknown_key: (_) => /[A-Za-z]+([ -][A-Za-z]+)?([ -][A-Za-z]+)?/,
    text: text,
    value: ($) =>
      repeat1(choice($._said, $.property, $._word, ",", ";", "(", ")", ".")),

    ingredient: ($) =>
      choice(
        seq(
          $._ingredient_start,
          optional($.bullet),
          optional($.amount),
          optional($.second),
          optional(choice($.of, $.each)),
          optional($._tail),
        ),
        seq($._turned_start, $._tail),
      ),
    amount: ($) =>
      choice(
        seq($._measure, repeat(seq($.plus, $._measure))),
        $.amount_word,
        seq($.vague, optional($.unit)),
        seq($.part, $._measure),
        $.unit,
      ),
    _measure: ($) => prec.right(seq($.quantity, optional($.unit))),
    second: ($) => seq($.open, $.quantity, optional($.unit), ")"),
    open: ($) => counted($, $._second_open),
    quantity: ($) => counted($, $._quantity),
    unit: ($) => counted($, $._unit),
    plus: ($) => counted($, $._plus),
    amount_word: ($) => counted($, $._amount_word),
    vague: ($) => counted($, $._vague),
    part: ($) => counted($, $._part_of),
    of: ($) => counted($, $._of),
    each: ($) => counted($, $._each),

    _tail: ($) => seq($._item, repeat(choice($._item, $.second))),
    _item: ($) =>
      choice(
        prec.right(seq($.name, optional(alias($.last_role, $.role)))),
        seq(alias($.bracket_open, $.open), optional(alias($._bracketed, $.qualifier)), ")"),
        prec.right(seq(",", optional($.qualifier))),
      ),
    bracket_open: ($) => counted($, $._bracket_open),
    name: ($) => prec.right(repeat1(choice($._word, $.property, ";", ".", "(", ")"))),
    qualifier: ($) =>
      choice($.role, prec.right(repeat1(choice($._word, $.property, ";", ".", "(", ")")))),
    _bracketed: ($) =>
      choice($.role, repeat1(choice($._word, $.property, ",", ";", ".", "("))),
    role: ($) => counted($, $._role),
    last_role: ($) => counted($, $._last_role),
    property: ($) => counted($, $._property),

    step: ($) =>
      seq(
        $._step_start,
        $.bullet,
        repeat(seq($.act, $.joint)),
        optional($.act),
      ),
    bullet: ($) => counted($, $._bullet),
    act: ($) => 
      seq(repeat($.adverb), choice($.technique, $._done), repeat($._done)),
    adverb: ($) => counted($, $._adverb),
    technique: ($) => counted($, $._technique),
    _done: ($) => choice($._said, $.temperature, $._word, ",", ";", "(", ")", "."),
    joint: ($) => counted($, $._joint),

    _said: ($) => choice($.duration, prec.right(seq(alias($.measured, $.quantity), optional($.unit)))),
    measured: ($) => counted($, $._measured),
    duration: ($) => counted($, $._duration),
    temperature: ($) => counted($, $._temperature),

    unreadable: ($) => seq($._unreadable_start, text($)),

    _word: (_) =>
      token(
        new RegExp(
          `([^${SPACE}${UNSEEN}\\r\\n${SIGN}]|\\.[^${SPACE}${UNSEEN}\\r\\n${SIGN}])` +
            `([^${SPACE}\\r\\n${SIGN}]|\\.+[^${SPACE}\\r\\n${SIGN}]|[0-9],[0-9])*`,
        ),
      ),
  },
});
