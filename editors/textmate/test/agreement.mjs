// Holds the TextMate grammar against the parser: what each line of each text is. The texts and the
// parser's word on them come on standard input, from the example `line-kinds`.
import { readFile } from "node:fs/promises";
import { createRequire } from "node:module";
import { text } from "node:stream/consumers";
import oniguruma from "vscode-oniguruma";
import textmate from "vscode-textmate";

const GRAMMAR = new URL("../pour.tmLanguage.json", import.meta.url);
const SLOWEST = 2000; // milliseconds for one awkward line of 10,000 characters

const KINDS = [
  ["comment.line.", "comment"],
  ["meta.heading.", "heading"],
  ["meta.field.", "field"],
  ["meta.ingredient.", "ingredient"],
  ["meta.step.", "step"],
  ["invalid.", "unreadable"],
];

// Numbers and units are told apart wherever they stand.
const AMOUNTS = [
  ["  price: 12 EUR", "12", "EUR"],
  ["  cost: £24.50", "24.50", "£"],
  ["  strength: 40 %", "40", "%"],
  ["  abv: 40.5 % vol", "40.5", "% vol"],
  ["  sugar: 300 g/l", "300", "g/l"],
  ["  yields: 300 ml", "300", "ml"],
  ["  30 ml gin", "30", "ml"],
];

const grammar = await load();
const texts = JSON.parse(await text(process.stdin));
const differ = texts.flatMap(differences);
const plain = AMOUNTS.flatMap(uncoloured);
const slow = awkward().flatMap(slowness);
const lines = texts.reduce((sum, { kinds }) => sum + kinds.length, 0);

for (const line of [...differ, ...plain, ...slow]) console.error(line);
if (lines < 1000) throw new Error("there is hardly a line to compare");
if (differ.length + plain.length + slow.length > 0) {
  const rest = `${plain.length} words have no colour, ${slow.length} lines are slow`;
  console.error(`TextMate grammar: ${differ.length} of ${lines} lines differ, ${rest}`);
  process.exit(1);
}
console.log(`TextMate grammar: ${lines} lines are what the parser says`);

async function load() {
  const require = createRequire(import.meta.url);
  const wasm = await readFile(require.resolve("vscode-oniguruma/release/onig.wasm"));
  await oniguruma.loadWASM(wasm);
  const registry = new textmate.Registry({
    onigLib: Promise.resolve({
      createOnigScanner: (patterns) => new oniguruma.OnigScanner(patterns),
      createOnigString: (line) => new oniguruma.OnigString(line),
    }),
    loadGrammar: async () => textmate.parseRawGrammar(await readFile(GRAMMAR, "utf8"), GRAMMAR.pathname),
  });
  return registry.loadGrammar("source.pour");
}

// Each line is tokenized with the state that the one before it left, as an editor does.
function differences({ name, text, kinds }) {
  const lines = text.split(/\r\n|\n|\r/);
  if (lines.at(-1) === "") lines.pop();
  if (lines.length !== kinds.length) return [`${name}: ${lines.length} lines, not ${kinds.length}`];
  let state = textmate.INITIAL;
  return lines.flatMap((line, index) => {
    const { tokens, ruleStack } = grammar.tokenizeLine(line, state);
    state = ruleStack;
    const found = kind(tokens);
    const wanted = kinds[index] === "refused" ? "unreadable" : kinds[index];
    return found === wanted ? [] : [`${name}:${index + 1}: ${found}, not ${wanted}: ${line}`];
  });
}

// The words of an amount that are not scoped as what they are.
function uncoloured([line, number, unit]) {
  const { tokens } = grammar.tokenizeLine(line, textmate.INITIAL);
  const scope = (word) =>
    tokens.find(({ startIndex, endIndex }) => line.slice(startIndex, endIndex) === word)?.scopes.at(-1) ?? "";
  const wanted = [[number, "constant.numeric.quantity."], [unit, "keyword.other.unit."]];
  return wanted
    .filter(([word, start]) => !scope(word).startsWith(start))
    .map(([word]) => `${word} of ${line} is ${scope(word) || "no word by itself"}`);
}

// What the first scope below that of the file says.
function kind(tokens) {
  const scope = tokens.map(({ scopes }) => scopes[1]).find((scope) => scope !== undefined) ?? "";
  return KINDS.find(([start]) => scope.startsWith(start))?.[1] ?? "blank";
}

// Lines of 10,000 characters on which a pattern that goes back and forth would never end.
function awkward() {
  const pieces = [
    "a", " ", "1", "1 ", "1/", "1-", ",", ", ", "(", "()", ")", "#", " #1", "-", "- ", "and ", "then ",
    "dry ", "shake, ", "to ", "to top ", "half ", "oz ", "1 oz + ", "~", ".", "é", "lime, to ", "\u200b",
    "no way, ", "1 oz ", "0", "fl. ", "rinse ", "stir and dry ", "a-b ", "x:",
  ];
  const long = (piece) => piece.repeat(Math.ceil(10_000 / piece.length)).slice(0, 10_000);
  return ["", "note: ", "yields: ", "price: ", "- ", "- stir ", "60 ml ", "60 ml gin, ", "lime "].flatMap((start) =>
    pieces.map((piece) => [`${start}…${piece}…`, start + long(piece)]),
  );
}

function slowness([name, line]) {
  const start = performance.now();
  grammar.tokenizeLine(line, textmate.INITIAL);
  const spent = performance.now() - start;
  return spent < SLOWEST ? [] : [`${name}: ${Math.round(spent)} ms`];
}
