// What the grammar cannot decide one token at a time: it looks to the end of a word or of a line.
//
// At the start of a line one token of no width says what the line is. The other tokens are words
// that only mean something as a whole: `bar spoon`, `to top`, `43 % abv`, `double strain`. The lexer
// cannot go back from what it looked at, so such words are two tokens: one of no width says what
// stands here, and REST takes as many characters as the first one counted.

#include "tree_sitter/parser.h"

#include <stdlib.h>

#include "line.h"

enum Token {
  HEADING_START,
  FIELD_START,
  STEP_START,
  INGREDIENT_START,
  TURNED_START,
  UNREADABLE_START,
  COMMENT,
  END_OF_FILE,
  BULLET,
  ADVERB,
  TECHNIQUE,
  JOINT,
  QUANTITY,
  MEASURED,
  UNIT,
  PLUS,
  AMOUNT_WORD,
  VAGUE,
  PART_OF,
  OF,
  EACH,
  SECOND_OPEN,
  BRACKET_OPEN,
  ROLE,
  LAST_ROLE,
  PROPERTY,
  DURATION,
  TEMPERATURE,
  REST,
  ERROR_RECOVERY,
};

// Code points of a line that are looked at: at its start, and from a token on.
#define LINE_LENGTH 2048
#define TOKEN_LENGTH 256

typedef struct {
  uint32_t text[LINE_LENGTH + 2];
  size_t length;
} Line;

static bool at_line_end(TSLexer *lexer) {
  return lexer->eof(lexer) || lexer->lookahead == '\n' || lexer->lookahead == '\r';
}

// Reads the rest of the line without the comment and the white space at its end.
static void read_rest(TSLexer *lexer, Line *line, size_t limit) {
  size_t length = 0, kept = 0;
  uint32_t before = 0;
  bool comment = false;
  while (!at_line_end(lexer) && length < limit) {
    uint32_t c = (uint32_t)lexer->lookahead;
    if (comment && !is_digit(c)) break;
    comment = c == '#' && length > 0 && is_space(before);
    line->text[length++] = c ? c : 1;
    if (!comment && !is_space(c) && !is_unseen(c)) kept = length;
    before = c;
    lexer->advance(lexer, false);
  }
  bool ends = at_line_end(lexer);
  if (comment && !ends && is_digit((uint32_t)lexer->lookahead)) kept = length;
  line->length = kept;
  line->text[kept] = 0;
  line->text[kept + 1] = 0;
}

// What is looked for at `text`, and what was found.
typedef struct {
  const bool *valid;
  Text text;
  enum Token token;
  Text end;
} Scan;

static bool found(Scan *scan, enum Token token, Text end) {
  if (!scan->valid[token] || !end || end == scan->text) return false;
  scan->token = token;
  scan->end = end;
  return true;
}

static Text property_figure(Text text) {
  Text rest = NULL;
  double value = 0;
  if (number(text, &rest, &value) != READ) return NULL;
  Text body = gap(rest);
  if (*body == '%') {
    Text of = one_of(gap(body + 1), CONCENTRATIONS);
    return of ? of : body + 1;
  }
  Text after = phrase(gap(*rest == '-' ? rest + 1 : rest), "proof");
  if (after) return after;
  Text degree = *body == 0xB0 ? gap(body + 1) : body;
  static const char *const units[] = {"brix", "bx", "g/100ml", "g/100 ml", "g/l", NULL};
  after = one_of(degree, units);
  if (after) return after;
  Text water = NULL;
  if (*rest == ':' && number(rest + 1, &water, &value) == READ && boundary(water) && *water != ':') {
    static const char *const by[] = {"by volume", "by weight", "by mass", "by vol", NULL};
    after = one_of(gap(water), by);
    return after ? after : water;
  }
  return NULL;
}

static Text property(Text text) {
  Text rest = property_figure(text);
  return rest ? rest : one_of(text, STATES);
}

static Text duration(Text text) {
  Text rest = phrase(text, "overnight");
  if (rest) return rest;
  return quantity(text, &rest) == READ ? one_of(gap(rest), TIME_UNITS) : NULL;
}

static Text temperature(Text text) {
  static const char *const degrees[] = {"celsius", "fahrenheit", "c", "f", NULL};
  Text start = *text == '-' || *text == 0x2212 ? gap(text + 1) : text, rest = NULL;
  double value = 0;
  if (number(start, &rest, &value) != READ) return NULL;
  Text body = gap(rest);
  if (is_dash(*body) && number(gap(body + 1), &rest, &value) == READ) body = gap(rest);
  if (*body == 0xB0) body = gap(body + 1);
  return one_of(body, degrees);
}

// A quantity in a value or a step: in words only before a unit.
static Text measured(Text text) {
  Text rest = NULL, after = NULL;
  bool has_unit = false;
  if (quantity(text, &rest) != READ || measure(text, &after, &has_unit) != READ) return NULL;
  bool plain = is_numeric(*text) || *text == '~' || *text == '.';
  return has_unit || (plain && boundary(rest)) ? rest : NULL;
}

// A counted unit with nothing behind it is a name: `40 cloves`.
static Text unit_of_line(Text text, bool may_be_name) {
  bool counts = false;
  Text rest = unit(text, &counts);
  if (!rest || !counts || !may_be_name) return rest;
  Text behind = gap(rest);
  return *behind == 0 || *behind == ',' ? NULL : rest;
}

// Whether an act starts at `behind`: a technique that is done, and no thing or quality.
static bool starts_act(Text behind) {
  Text start = skip_adverbs(gap(behind));
  Text rest = technique(start);
  if (!rest || phrase(gap(rest), "of")) return false;
  Text after = gap(rest);
  bool ends = *after == 0 || *after == ',' || *after == ';' || *after == '.' || *after == '&' ||
              *after == '(' || is_dash(*after);
  bool past = lower(rest[-1]) == 'd' && lower(rest[-2]) == 'e';
  bool done = lower(rest[-1]) == 'n' && lower(rest[-2]) == 'e';
  if (past || done || one_of(start, QUALITIES) == rest) {
    return ends || is_numeric(*after) || one_of(after, SMALL_WORDS);
  }
  if (one_of(start, THINGS) == rest) return !ends && !one_of(after, SMALL_WORDS);
  return true;
}

// A sign or word between two acts.
static Text joint(Text text) {
  Text behind = NULL;
  if (*text == ',' || *text == ';' || *text == '&') behind = text + 1;
  if (*text == '.' && (text[1] == 0 || is_space(text[1]))) behind = text + 1;
  if (!behind) behind = phrase(text, "and");
  if (!behind) behind = phrase(text, "then");
  return behind && starts_act(behind) ? behind : NULL;
}

// The bracket that `text` opens: the amount again, or a qualifier.
static bool bracket(Scan *scan) {
  if (*scan->text != '(') return false;
  Text closed = scan->text;
  while (*closed && *closed != ')') closed++;
  if (!*closed) return false;
  Part inner;
  cut_out(&inner, scan->text + 1, closed);
  Text rest = NULL;
  bool has_unit = false;
  bool amount = measure(inner.text, &rest, &has_unit) == READ && *rest == 0;
  Text half = phrase(inner.text, "half");
  if (amount && (has_unit || (half && *half == 0)) && found(scan, SECOND_OPEN, scan->text + 1)) {
    return true;
  }
  return found(scan, BRACKET_OPEN, scan->text + 1);
}

// The end of the qualifier at `text`: a comma or a closing bracket.
static Text role_here(Text text, bool whole) {
  Text end = part_end(text, text);
  for (Text at = text; at < end; at++) {
    if (*at == ')') end = at;
  }
  while (end > text && is_space(end[-1])) end--;
  Part part;
  cut_out(&part, text, end);
  if (!role(part.text)) return NULL;
  static const char *const alone[] = {"rinse", "float", "mist", "rim", NULL};
  return whole || phrase(part.text, "to") || one_of(part.text, alone) ? end : NULL;
}

static Text bullet(Text text) {
  Text behind = behind_bullet(text);
  if (!behind) return NULL;
  while (behind > text && is_space(behind[-1])) behind--;
  return behind;
}

static bool scan_token(Scan *scan) {
  const bool *valid = scan->valid;
  Text text = scan->text, rest = NULL;
  bool in_amount = valid[EACH];
  if (valid[BULLET] && found(scan, BULLET, bullet(text))) return true;
  if (valid[JOINT] && found(scan, JOINT, joint(text))) return true;
  if (valid[ADVERB] && technique(skip_adverbs(text)) && found(scan, ADVERB, one_of(text, ADVERBS)) &&
      !technique(text)) {
    return true;
  }
  if (valid[TECHNIQUE] && found(scan, TECHNIQUE, technique(text))) return true;
  if (bracket(scan)) return true;
  if (valid[EACH] && found(scan, EACH, phrase(text, "each"))) return true;
  if (valid[OF] && (rest = phrase(text, "of")) && gap(rest) > rest && found(scan, OF, rest)) return true;
  if (valid[UNIT] && found(scan, UNIT, unit_of_line(text, in_amount))) return true;
  if (valid[PLUS] && *text == '+' && found(scan, PLUS, text + 1)) return true;
  if (valid[PART_OF] && found(scan, PART_OF, part_of(text))) return true;
  if (valid[AMOUNT_WORD] && shares(text) && found(scan, AMOUNT_WORD, phrase(text, "equal parts"))) {
    return true;
  }
  if (valid[AMOUNT_WORD] && found(scan, AMOUNT_WORD, amount_word(text))) return true;
  if (valid[VAGUE] && found(scan, VAGUE, one_of(text, VAGUE_AMOUNTS))) return true;
  if (valid[QUANTITY] && quantity(text, &rest) == READ && found(scan, QUANTITY, rest)) return true;
  if (valid[ROLE] && found(scan, ROLE, role_here(text, true))) return true;
  if (valid[LAST_ROLE] && found(scan, LAST_ROLE, role_here(text, false))) return true;
  if (valid[PROPERTY] && found(scan, PROPERTY, property(text))) return true;
  if (valid[DURATION] && found(scan, DURATION, duration(text))) return true;
  if (valid[TEMPERATURE] && found(scan, TEMPERATURE, temperature(text))) return true;
  return valid[MEASURED] && found(scan, MEASURED, measured(text));
}

// The rest of the line from its `#`, white space at its end left out.
static bool scan_comment(TSLexer *lexer, bool whole_line) {
  lexer->advance(lexer, false);
  if (!whole_line && is_digit((uint32_t)lexer->lookahead)) return false;
  lexer->mark_end(lexer);
  while (!at_line_end(lexer)) {
    uint32_t c = (uint32_t)lexer->lookahead;
    lexer->advance(lexer, false);
    if (!is_space(c) && !is_unseen(c)) lexer->mark_end(lexer);
  }
  lexer->result_symbol = COMMENT;
  return true;
}

static bool scan_line_start(TSLexer *lexer, const bool *valid, bool indented) {
  static const enum Token starts[] = {
      [UNREADABLE] = UNREADABLE_START, [HEADING] = HEADING_START,       [FIELD] = FIELD_START,
      [STEP] = STEP_START,             [INGREDIENT] = INGREDIENT_START, [TURNED] = TURNED_START,
  };
  Line line;
  lexer->mark_end(lexer);
  read_rest(lexer, &line, LINE_LENGTH);
  enum Token token = starts[classify(line.text, indented)];
  lexer->result_symbol = token;
  return valid[token];
}

static bool scan_words(TSLexer *lexer, const bool *valid, uint16_t *length) {
  Line line;
  lexer->mark_end(lexer);
  read_rest(lexer, &line, TOKEN_LENGTH);
  Scan scan = {.valid = valid, .text = line.text};
  if (!scan_token(&scan)) return false;
  *length = (uint16_t)(scan.end - scan.text);
  lexer->result_symbol = scan.token;
  return true;
}

static bool scan_counted(TSLexer *lexer, uint16_t *length) {
  for (; *length > 0 && !at_line_end(lexer); (*length)--) lexer->advance(lexer, false);
  *length = 0;
  lexer->mark_end(lexer);
  lexer->result_symbol = REST;
  return true;
}

// The state is how many characters REST takes.
void *tree_sitter_pour_external_scanner_create(void) { return calloc(1, sizeof(uint16_t)); }

void tree_sitter_pour_external_scanner_destroy(void *payload) { free(payload); }

unsigned tree_sitter_pour_external_scanner_serialize(void *payload, char *buffer) {
  memcpy(buffer, payload, sizeof(uint16_t));
  return sizeof(uint16_t);
}

void tree_sitter_pour_external_scanner_deserialize(void *payload, const char *buffer, unsigned length) {
  memset(payload, 0, sizeof(uint16_t));
  if (length == sizeof(uint16_t)) memcpy(payload, buffer, length);
}

bool tree_sitter_pour_external_scanner_scan(void *payload, TSLexer *lexer, const bool *valid) {
  uint16_t *length = payload;
  if (valid[ERROR_RECOVERY]) return false;
  if (valid[REST]) return scan_counted(lexer, length);
  uint32_t before = 0;
  bool skipped = false;
  while (!at_line_end(lexer)) {
    uint32_t c = (uint32_t)lexer->lookahead;
    if (!is_space(c) && !is_unseen(c)) break;
    before = c;
    skipped = true;
    lexer->advance(lexer, true);
  }
  if (lexer->eof(lexer)) {
    lexer->result_symbol = END_OF_FILE;
    return valid[END_OF_FILE];
  }
  if (at_line_end(lexer)) return false;
  bool starts = valid[UNREADABLE_START];
  if (lexer->lookahead == '#' && valid[COMMENT] && (starts || is_space(before))) {
    return scan_comment(lexer, starts);
  }
  if (starts) return scan_line_start(lexer, valid, skipped);
  return scan_words(lexer, valid, length);
}
