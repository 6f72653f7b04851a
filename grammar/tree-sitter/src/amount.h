// Amounts: numbers, quantities, units, sums, and which of them are refused.

#ifndef POUR_AMOUNT_H_
#define POUR_AMOUNT_H_

#include "text.h"
#include "vocabulary.h"

// How a reader here answers: it has read something, this is none, or it must not be guessed at.
typedef enum { NONE, READ, REFUSED } Answer;

// A value that is not looked at: that of a number word.
#define UNKNOWN (-1.0)

#define MOST_DIGITS 9
#define MOST_DECIMALS 6
#define FINEST 64

static inline bool is_slash(uint32_t c) { return c == '/' || c == 0x2044 || c == 0x2215; }

static inline Text digits(Text text) {
  while (is_digit(*text)) text++;
  return text;
}

static inline double whole(Text from, Text to) {
  double value = 0;
  for (; from < to; from++) value = value * 10 + (double)(*from - '0');
  return value;
}

// The two numbers of a fraction below one.
static inline Answer fraction(Text text, Text *rest, double *value) {
  Text above = digits(text);
  if (above == text || !is_slash(*gap(above))) return NONE;
  Text below = gap(gap(above) + 1);
  *rest = digits(below);
  if (*rest == below) return NONE;
  if (above - text > MOST_DIGITS || *rest - below > MOST_DIGITS) return REFUSED;
  double n = whole(text, above), d = whole(below, *rest);
  if (n == 0 || d == 0 || d > FINEST || n >= d) return REFUSED;
  *value = n / d;
  return READ;
}

// Digits, a point or a comma, digits.
static inline Answer decimal(Text text, Text point, Text *rest, double *value) {
  Text part = point + 1;
  *rest = digits(part);
  bool noughts = part[0] == '0' && part[1] == '0' && part[2] == '0';
  bool three = *rest - part == 3;
  if (three && (*point == ',' || noughts) && *text != '0') return REFUSED;
  if (point - text > MOST_DIGITS || *rest - part > MOST_DECIMALS) return REFUSED;
  *value = whole(text, point);
  double scale = 1;
  for (; part < *rest; part++) *value += (double)(*part - '0') * (scale /= 10);
  return READ;
}

// A whole number with a fraction behind it.
static inline Answer mixed(Text text, Text behind, Text *rest, double *value) {
  Text body = gap(behind);
  bool dash = is_dash(*body);
  if (dash) body = gap(body + 1);
  bool parted = dash || body > gap(behind) || gap(behind) > behind;
  double above = 0;
  if (is_fraction_sign(*body)) {
    *rest = body + 1;
    above = 0.5;
  } else if (!is_digit(*body) || !parted) {
    return NONE;
  } else {
    Answer answer = fraction(body, rest, &above);
    if (answer != READ) return answer;
  }
  *value = whole(text, behind) + above;
  return READ;
}

// The longest number at the start of `text`. It may be nought.
static inline Answer number(Text text, Text *rest, double *value) {
  if (text[0] == '.' && is_digit(text[1])) return decimal(text, text, rest, value);
  if (is_fraction_sign(*text)) {
    *rest = text + 1;
    *value = *text == 0x2189 ? 0 : UNKNOWN;
    return READ;
  }
  if (!is_digit(*text)) return *text >= 0x80 && is_numeric(*text) ? REFUSED : NONE;
  Text behind = digits(text);
  if ((*behind == '.' || *behind == ',') && is_digit(behind[1])) {
    return decimal(text, behind, rest, value);
  }
  if (behind - text > MOST_DIGITS) return REFUSED;
  Answer answer = mixed(text, behind, rest, value);
  if (answer == NONE) answer = fraction(text, rest, value);
  if (answer != NONE) return answer;
  *rest = behind;
  *value = whole(text, behind);
  return READ;
}

// A number in words.
static inline Answer counted(Text text, Text *rest) {
  if (phrase(text, "half and half")) return NONE;
  Text after = one_of(text, NUMBER_WORDS);
  if (!after) return NONE;
  *rest = after;
  return READ;
}

static inline Answer one(Text text, Text *rest, double *value) {
  Answer answer = number(text, rest, value);
  if (answer != NONE) return answer;
  *value = UNKNOWN;
  return counted(text, rest);
}

// What follows `~`, `about` and their like; NULL where none stands there.
static inline Text about(Text text) {
  if (*text == '~' || *text == 0x2248) return gap(text + 1);
  Text rest = one_of(text, APPROXIMATIONS);
  if (!rest) return NULL;
  return gap(*rest == '.' ? rest + 1 : rest);
}

// The upper end of a range.
static inline Answer above(Text rest, Text *after, double *value) {
  Text behind = gap(rest);
  if (is_dash(*behind)) return number(gap(behind + 1), after, value);
  if (behind == rest) return NONE;
  Text joined = phrase(behind, "to");
  if (!joined) joined = phrase(behind, "or");
  if (!joined || gap(joined) == joined) return NONE;
  return one(gap(joined), after, value);
}

// A quantity above nought.
static inline Answer quantity(Text text, Text *rest) {
  Text start = about(text);
  double low = 0, high = 0;
  Answer answer = one(start ? start : text, rest, &low);
  if (answer != READ) return answer;
  Text after = NULL;
  answer = above(*rest, &after, &high);
  if (answer == REFUSED || low == 0) return REFUSED;
  if (answer == NONE) return READ;
  *rest = after;
  bool known = low != UNKNOWN && high != UNKNOWN;
  return known && high <= low ? REFUSED : READ;
}

// No unit is spelt longer.
#define UNIT_LENGTH 24

static inline bool among(const char *word, const char *const *list) {
  for (; *list; list++) {
    if (strcmp(word, *list) == 0) return true;
  }
  return false;
}

static inline bool ends_unit(Text rest) {
  return !is_alphanumeric(*rest) && !is_dash(*rest) && !is_apostrophe(*rest);
}

// What follows the unit at the start of `text`, longest first, or NULL; and whether it counts.
static inline Text unit(Text text, bool *counts) {
  char spelt[UNIT_LENGTH + 1];
  size_t length = 0;
  Text found = NULL, at = text;
  for (int words = 0; words < 3; words++) {
    Text next = words == 0 ? at : gap(*at == '.' ? at + 1 : at);
    if (words > 0) {
      if (next == at || length == UNIT_LENGTH) break;
      spelt[length++] = ' ';
    }
    Text end = next;
    while (is_ascii_letter(*end) && length < UNIT_LENGTH) spelt[length++] = (char)lower(*end++);
    if (end == next || is_ascii_letter(*end)) break;
    spelt[length] = 0;
    bool measures = among(spelt, MEASURED_UNITS);
    if ((measures || among(spelt, COUNTED_UNITS)) && ends_unit(end)) {
      found = end;
      *counts = !measures;
    }
    at = end;
  }
  // A full stop behind a short unit belongs to it.
  bool stop = found && *found == '.' && found - text <= 6 && !is_digit(found[1]);
  return stop ? found + 1 : found;
}

// Whether `rest` starts with an `x` that multiplies.
static inline bool is_times(Text rest) {
  if (lower(*rest) != 'x' && *rest != 0xD7) return false;
  Text behind = gap(rest + 1);
  return *behind == 0 || is_digit(*behind) || behind > rest + 1;
}

// A quantity and the unit behind it, where one stands there.
static inline Answer measure(Text text, Text *rest, bool *has_unit) {
  Answer answer = quantity(text, rest);
  if (answer != READ) return answer;
  bool counts = false;
  Text after = unit(gap(*rest), &counts);
  *has_unit = after != NULL;
  if (after) {
    *rest = after;
    return READ;
  }
  return is_letter(**rest) && !is_times(*rest) ? REFUSED : READ;
}

static inline bool is_point(Text text) { return text[0] == '.' && is_digit(text[1]); }

// Signs that may stand behind an amount.
static inline bool may_follow(uint32_t c) {
  return c == '(' || c == ',' || c == '#' || c == '\\' || c == '"' || is_apostrophe(c);
}

// `ml-15 ml`, which is no name.
static inline bool is_range_of_measures(Text body) {
  Text end = body;
  while (is_ascii_letter(*end)) end++;
  if (end == body || !is_dash(*end) || !is_digit(end[1])) return false;
  Part part;
  cut_out(&part, body, end);
  bool counts = false;
  Text rest = unit(part.text, &counts);
  return rest && *rest == 0;
}

static inline bool doubtful_behind_number(Text rest) {
  Text body = gap(rest);
  uint32_t c = *body;
  if (is_numeric(c) || is_point(body) || is_times(body) || is_range_of_measures(body)) return true;
  if (phrase(body, "and") || phrase(body, "or") || phrase(body, "to") || phrase(body, "plus")) {
    return true;
  }
  if (body == rest && (c == '"' || is_apostrophe(c))) return true;
  if (c == ',' && is_digit(body[1])) return true;
  if (may_follow(c)) return false;
  return is_punctuation(c) || is_dash(c) || c == 0xD7 || c == 0xF7 || c == 0x20AC || c == 0xA3 ||
         c == 0xA5 || c == 0xB0 || c == 0x2032 || c == 0x2033 || c == 0x2212;
}

static inline bool doubtful_behind_unit(Text rest) {
  static const char *const joints[] = {"and", "to", "plus", NULL};
  Text body = gap(rest), after = NULL;
  double value = 0;
  bool has_unit = false;
  if (phrase(body, "or")) return true;
  Text joined = one_of(body, joints);
  if (joined && one(gap(joined), &after, &value) == READ) return true;
  if (is_digit(*body) || is_point(body)) {
    // Digits of a name are the name's; a second amount is not.
    return measure(body, &after, &has_unit) == READ && has_unit;
  }
  if (may_follow(*body)) return false;
  return is_punctuation(*body) || is_dash(*body) || *body == 0xD7 || *body == 0x2212;
}

// One measure and those added to it, with nothing behind them that makes them doubtful.
static inline Answer sum(Text text) {
  Text rest = NULL;
  bool all = true, has_unit = false;
  Answer answer = measure(text, &rest, &all);
  if (answer != READ) return answer;
  bool alone = true;
  while (*gap(rest) == '+') {
    Text term = gap(gap(rest) + 1);
    if (measure(term, &rest, &has_unit) != READ) return REFUSED;
    all = all && has_unit;
    alone = false;
  }
  if (!all && !alone) return REFUSED;
  if (*gap(rest) == 0) return READ;
  bool doubtful = all ? doubtful_behind_unit(rest) : doubtful_behind_number(rest);
  return doubtful ? REFUSED : READ;
}

#endif
