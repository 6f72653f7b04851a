// What a line is: a heading, a field, a step, an ingredient, or nothing that can be read.

#ifndef POUR_LINE_H_
#define POUR_LINE_H_

#include "amount.h"

typedef enum { UNREADABLE, HEADING, FIELD, STEP, INGREDIENT, TURNED, OTHER } Kind;

// A key has at most so many letters, and so many adverbs may stand before a verb.
#define KEY_LENGTH 24
#define MOST_ADVERBS 4

static inline bool is_bullet(uint32_t c) {
  return c == '-' || c == '*' || c == '+' || c == '>' || c == 0x2013 || c == 0x2014 ||
         c == 0x2022 || c == 0xB7 || c == 0x2023 || c == 0x25AA || c == 0x25CF || c == 0x25E6 ||
         c == 0x2043;
}

// What follows `1. ` or `2) `, or NULL.
static inline Text list_number(Text text) {
  Text end = digits(text);
  if (end == text || end - text > 2 || (*end != '.' && *end != ')')) return NULL;
  Text behind = gap(end + 1);
  return behind > end + 1 && *behind ? behind : NULL;
}

// What follows a bullet that others write, or the number of a list; NULL where none stands there.
static inline Text behind_bullet(Text text) {
  Text numbered = list_number(text);
  if (numbered) return numbered;
  Text end = text;
  while (is_bullet(*end)) end++;
  return end > text ? gap(end) : NULL;
}

// `text` without the adverbs at its start; all of it where nothing else is left.
static inline Text skip_adverbs(Text text) {
  for (int times = 0; times < MOST_ADVERBS; times++) {
    Text rest = one_of(text, ADVERBS);
    if (!rest) break;
    Text next = gap(*rest == ',' ? rest + 1 : rest);
    if (next == rest || !*next) break;
    text = next;
  }
  return text;
}

// What follows the technique at the start of `text`, longest first, or NULL.
static inline Text technique(Text text) { return one_of(text, TECHNIQUES); }

// The end of one to three words of ASCII letters with a colon behind them, or NULL.
static inline Text key(Text text) {
  Text end = text;
  while (is_ascii_letter(*end)) end++;
  if (end == text) return NULL;
  for (int more = 0; more < 2; more++) {
    if ((*end != ' ' && *end != '-') || !is_ascii_letter(end[1])) break;
    end++;
    while (is_ascii_letter(*end)) end++;
  }
  return *gap(end) == ':' && end - text <= KEY_LENGTH ? end : NULL;
}

static inline Kind pair(Text text, Text end) {
  if (one_of(text, HEADINGS) == end) return HEADING;
  if (one_of(text, TEXT_KEYS) == end || one_of(text, VALUE_KEYS) == end) return FIELD;
  if (one_of(text, VERB_KEYS) == end) return FIELD;
  Text verb = technique(text);
  return verb && verb <= end ? OTHER : FIELD;
}

// The role that all of a qualifier says: its word, or NULL.
static inline const char *role(Text text) {
  for (const char *const *list = WHOLE_ROLES; *list; list++) {
    Text rest = phrase(text, *list);
    if (rest && *rest == 0) return *list;
  }
  Text before = one_of(text, BEFORE_ROLES);
  Text start = before ? gap(before) : text;
  for (const char *const *list = ROLES; *list; list++) {
    Text rest = phrase(start, *list);
    if (!rest) continue;
    bool bare = start == text && strcmp(*list, "taste") == 0;
    return *rest == 0 && !bare ? *list : NULL;
  }
  return NULL;
}

// The role of a line whose name stands first: those of a garnish or of what is left out are none.
static inline bool turns(Text text) {
  const char *word = role(text);
  return word && strcmp(word, "garnish") != 0 && !among(word, WHOLE_ROLES);
}

// Where the last word of `name` starts, if another stands before it; else NULL.
static inline Text last_word(Text name, Text end) {
  while (end > name && is_space(end[-1])) end--;
  while (end > name && !is_space(end[-1])) end--;
  Text before = end;
  while (before > name && is_space(before[-1])) before--;
  return before > name ? end : NULL;
}

// Where the role that ends a name starts, or NULL: `absinthe rinse`, `soda to top`.
static inline Text role_behind(Text name) {
  static const char *const alone[] = {"rinse", "float", "mist", "rim", NULL};
  Text last = last_word(name, end_of(name));
  if (!last) return NULL;
  Text joined = last_word(name, last);
  Text after = joined ? phrase(joined, "to") : NULL;
  if (after && gap(after) == last) return role(joined) ? joined : NULL;
  after = one_of(last, alone);
  return after && *after == 0 ? last : NULL;
}

// Whether `name` is what someone does, not what goes in.
static inline bool is_verb(Text name) {
  Text rest = technique(name);
  if (!rest) return false;
  bool past = rest - name >= 2 && lower(rest[-2]) == 'e' && lower(rest[-1]) == 'd';
  Text dry = phrase(name, "dry");
  return !(past || (dry && dry == rest)) || *rest == 0;
}

// The next separating comma or the end. A comma between digits or in brackets separates nothing.
static inline Text part_end(Text from, Text start) {
  for (Text at = from; *at; at++) {
    if (*at == '(') {
      Text closed = at;
      while (*closed && *closed != ')') closed++;
      if (*closed) at = closed;
    } else if (*at == ',' && !(at > start && is_digit(at[-1]) && is_digit(at[1]))) {
      return at;
    }
  }
  return end_of(from);
}

// `soda water, to top`: a line with no amount whose role stands behind its name.
static inline bool is_turned(Text text) {
  Part name, part;
  Text end = part_end(text, text);
  cut_out(&name, text, end);
  bool said = false;
  while (*end) {
    Text start = end + 1;
    end = part_end(start, text);
    cut_out(&part, start, end);
    said = said || turns(part.text);
  }
  if (!said) {
    Text behind = role_behind(name.text);
    if (!behind || !turns(behind)) return false;
    cut_out(&part, name.text, behind);
    name = part;
    Text last = last_word(name.text, end_of(name.text));
    Text half = last ? phrase(last, "half") : NULL;
    if (half && *half == 0) {
      cut_out(&part, name.text, last);
      name = part;
    }
  }
  return name.text[0] && !is_verb(name.text);
}

static inline bool is_signed_number(Text text) {
  Text rest = NULL;
  double value = 0;
  bool sign = *text == '-' || *text == '+' || *text == 0x2212 || *text == 0xB1 || *text == 0x2013;
  return sign && number(text + 1, &rest, &value) != NONE;
}

// What follows `juice of` and the like, where an amount stands behind it; else NULL.
static inline Text part_of(Text text) {
  Text the = phrase(text, "the");
  Text rest = one_of(the ? gap(the) : text, PARTS);
  if (!rest) return NULL;
  Text of = phrase(gap(rest), "of");
  if (!of) of = phrase(gap(rest), "from");
  bool has_unit = false;
  return of && measure(gap(of), &rest, &has_unit) == READ ? of : NULL;
}

// What follows an amount word, or NULL; before `the`, `glass` and such it is a verb.
static inline Text amount_word(Text text) {
  Text rest = one_of(text, AMOUNT_WORDS);
  if (!rest || one_of(gap(rest), BEHIND_VERBS)) return NULL;
  bool stops = *rest && !is_space(*rest) && *rest != '(' && *rest != ',';
  return stops ? NULL : rest;
}

// What follows a count with its sign at the start of a word: `x2`, `x 2`.
static inline Text count(Text text) {
  if (lower(*text) != 'x' && *text != 0xd7) return NULL;
  Text number = gap(text + 1);
  Text rest = number;
  while (is_digit(*rest)) rest++;
  bool counts = rest > number && rest - number <= 2 && (number[0] != '0' || (rest - number == 2 && number[1] != '0'));
  return counts && (*rest == 0 || is_space(*rest)) ? rest : NULL;
}

// Whether the count of a unit stands behind it or behind its name: `dash x2 bitters`, `dash bitters x 2`.
static inline bool is_counted(Text behind) {
  for (Text at = behind; *at; at++) {
    if (*at == ',' || *at == '#' || *at == '(') return false;
  }
  Text start = gap(behind);
  Text rest = count(start);
  if (rest) return *gap(rest) != 0;
  for (Text at = start; *at; at++) {
    rest = at > start && is_space(at[-1]) ? count(at) : NULL;
    if (rest && *gap(rest) == 0) return true;
  }
  return false;
}

static inline bool is_bare_unit(Text text) {
  Text rest = one_of(text, BARE_UNITS);
  if (!rest || is_counted(rest)) return false;
  bool verb = one_of(gap(rest), BEHIND_VERBS) || phrase(gap(rest), "a");
  return !verb || !technique(text);
}

static inline bool shares(Text text) {
  Text rest = phrase(text, "equal parts");
  if (!rest) return false;
  rest = gap(rest);
  if (*rest == ':') rest = gap(rest + 1);
  return *rest && !phrase(rest, "of") ? true : rest && *gap(rest) != 0;
}

// An ingredient, an amount that is refused, or OTHER.
static inline Kind ingredient(Text text) {
  if (is_digit(*text) && list_number(text)) return OTHER;
  if (is_ascii_letter(*text)) {
    if (shares(text) || part_of(text)) return INGREDIENT;
    if (one_of(text, AMOUNT_WORDS)) {
      if (amount_word(text)) return INGREDIENT;
    } else if (one_of(text, VAGUE_AMOUNTS)) {
      return INGREDIENT;
    }
    if (is_bare_unit(text)) return INGREDIENT;
  } else if (is_signed_number(text)) {
    return UNREADABLE;
  }
  switch (sum(text)) {
    case READ: return INGREDIENT;
    case REFUSED: return UNREADABLE;
    default: return OTHER;
  }
}

// A bullet that is none, a name before its role, or nothing that can be read.
static inline Kind other(Text text) {
  Text behind = behind_bullet(text);
  if (behind && *behind) {
    if (technique(skip_adverbs(behind))) return STEP;
    Kind kind = ingredient(behind);
    if (kind != OTHER) return kind;
  }
  return is_turned(text) ? TURNED : UNREADABLE;
}

// Seven signs at the very start of a line, as a merge leaves them behind.
static inline bool is_conflict_marker(Text text) {
  if (*text != '<' && *text != '=' && *text != '|' && *text != '>') return false;
  for (int i = 1; i < 7; i++) {
    if (text[i] != text[0]) return false;
  }
  return text[7] == 0 || text[7] == ' ';
}

// What the content of a line is; `indented` where anything stands before it.
static inline Kind classify(Text text, bool indented) {
  if (!indented && is_conflict_marker(text)) return UNREADABLE;
  if (*text == '-' && (text[1] == 0 || is_space(text[1]))) return STEP;
  Text end = key(text);
  if (end) {
    Kind kind = pair(text, end);
    if (kind != OTHER) return kind;
  }
  Kind kind = ingredient(text);
  return kind == OTHER ? other(text) : kind;
}

#endif
