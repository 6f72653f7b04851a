// Walking along the text of a line: characters, blanks, words in any case.
//
// A text is an array of code points that ends with a nought. It holds no line end.

#ifndef POUR_TEXT_H_
#define POUR_TEXT_H_

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

typedef const uint32_t *Text;

// White space that ends no line.
static inline bool is_space(uint32_t c) {
  return c == ' ' || c == '\t' || c == 0x0B || c == 0x0C || c == 0x85 || c == 0xA0 || c == 0x1680 ||
         (c >= 0x2000 && c <= 0x200A) || c == 0x2028 || c == 0x2029 || c == 0x202F || c == 0x205F ||
         c == 0x3000;
}

// What shows nothing and is no white space: controls, zero-width marks, marks of direction.
static inline bool is_unseen(uint32_t c) {
  return c <= 0x08 || (c >= 0x0E && c <= 0x1F) || (c >= 0x7F && c <= 0x84) ||
         (c >= 0x86 && c <= 0x9F) || c == 0xAD || c == 0x61C || c == 0x180E ||
         (c >= 0x200B && c <= 0x200F) || (c >= 0x202A && c <= 0x202E) ||
         (c >= 0x2060 && c <= 0x206F) || c == 0xFEFF || (c >= 0xFFF9 && c <= 0xFFFB);
}

static inline bool is_digit(uint32_t c) { return c >= '0' && c <= '9'; }

static inline uint32_t lower(uint32_t c) { return c >= 'A' && c <= 'Z' ? c + 32 : c; }

static inline bool is_ascii_letter(uint32_t c) { return lower(c) >= 'a' && lower(c) <= 'z'; }

static inline bool is_fraction_sign(uint32_t c) {
  return (c >= 0xBC && c <= 0xBE) || (c >= 0x2150 && c <= 0x215E) || c == 0x2189;
}

// Numbers of any script: the common ones, since no table of all of them is at hand here.
static inline bool is_numeric(uint32_t c) {
  return is_digit(c) || is_fraction_sign(c) || c == 0xB2 || c == 0xB3 || c == 0xB9 ||
         (c >= 0x660 && c <= 0x669) || (c >= 0x6F0 && c <= 0x6F9) || (c >= 0x966 && c <= 0x96F) ||
         (c >= 0x2070 && c <= 0x2079) || (c >= 0x2080 && c <= 0x2089) ||
         (c >= 0x2160 && c <= 0x2188) || (c >= 0x2460 && c <= 0x249B) ||
         (c >= 0xFF10 && c <= 0xFF19);
}

// Letters: of ASCII, and above it what is no sign of punctuation, mathematics or pictures.
static inline bool is_letter(uint32_t c) {
  if (c < 0x80) return is_ascii_letter(c);
  if (c < 0xC0) return c == 0xAA || c == 0xB5 || c == 0xBA;
  if (c == 0xD7 || c == 0xF7 || is_numeric(c) || is_space(c) || is_unseen(c)) return false;
  return !(c >= 0x2010 && c <= 0x2BFF) && !(c >= 0x3000 && c <= 0x3004) &&
         !(c >= 0x3008 && c <= 0x3020) && !(c >= 0xFE00 && c <= 0xFE6F) && c < 0x1F000;
}

static inline bool is_alphanumeric(uint32_t c) { return is_letter(c) || is_numeric(c); }

static inline bool is_punctuation(uint32_t c) {
  return (c >= '!' && c <= '/') || (c >= ':' && c <= '@') || (c >= '[' && c <= '`') ||
         (c >= '{' && c <= '~');
}

// A hyphen or one of the dashes that stand for it.
static inline bool is_dash(uint32_t c) { return c == '-' || (c >= 0x2010 && c <= 0x2014); }

static inline bool is_apostrophe(uint32_t c) { return c == '\'' || c == 0x2019; }

// The text behind its leading white space.
static inline Text gap(Text text) {
  while (is_space(*text)) text++;
  return text;
}

static inline Text end_of(Text text) {
  while (*text) text++;
  return text;
}

// Whether a word may end before `rest`.
static inline bool boundary(Text rest) {
  if (is_apostrophe(rest[0])) return !is_letter(rest[1]);
  if (is_dash(rest[0])) return !is_alphanumeric(rest[1]);
  return !is_alphanumeric(rest[0]);
}

// What follows `words` at the start of `text`, or NULL. The words are lower case; case does not
// matter, a blank of them stands for a hyphen or white space, an `e` for an accented one.
static inline Text phrase(Text text, const char *words) {
  for (; *words; words++) {
    if (*words == ' ') {
      if (!is_space(*text) && !is_dash(*text)) return NULL;
      text = gap(text + 1);
      continue;
    }
    bool accented = *words == 'e' && (*text == 0xE9 || *text == 0xE8 || *text == 0xEA || *text == 0xC9);
    if (lower(*text) != (uint32_t)(unsigned char)*words && !accented) return NULL;
    text++;
  }
  return boundary(text) ? text : NULL;
}

// What follows the first of `list`, which ends with NULL, that stands at the start of `text`.
static inline Text one_of(Text text, const char *const *list) {
  for (; *list; list++) {
    Text rest = phrase(text, *list);
    if (rest) return rest;
  }
  return NULL;
}

// Room for a part of a line. A longer part is looked at up to here.
#define PART_LENGTH 256

typedef struct {
  uint32_t text[PART_LENGTH + 1];
} Part;

// The text from `start` up to `end` without white space around it.
static inline void cut_out(Part *part, Text start, Text end) {
  while (start < end && is_space(*start)) start++;
  while (end > start && is_space(end[-1])) end--;
  size_t length = (size_t)(end - start);
  if (length > PART_LENGTH) length = PART_LENGTH;
  memcpy(part->text, start, length * sizeof(uint32_t));
  part->text[length] = 0;
}

#endif
