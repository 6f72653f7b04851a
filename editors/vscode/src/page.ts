// The figures as a page: tables in the editor's own colours, nothing from elsewhere; the card of the
// line at hand is marked and kept in sight.

interface Range {
  value: number;
  low: number;
  high: number;
  currency?: string;
}

interface Entry {
  entry: string;
  kind: string;
  line: number;
  family: string[];
  figures: Record<string, Range | null | Record<string, Range | null>>;
  allergens: { allergen: string; detail?: string | null; from: string[] }[];
  allergens_unknown: string[];
}

/** The program's answer, or why there is none. */
export interface Answer {
  entries?: Entry[];
  problem?: string;
}

/** The figures shown, in this order: key, name, unit. */
const SHOWN: [string, string, string][] = [
  ["abv_percent", "Strength", "% vol"],
  ["sugar_g_per_100ml", "Sugar", "g/100 ml"],
  ["acid_g_per_100ml", "Acid, as citric", "g/100 ml"],
  ["sugar_acid_ratio", "Sugar to acid", ""],
  ["dilution_percent", "Dilution", "%"],
  ["final_ml", "Volume", "ml"],
  ["glass_fill_percent", "Glass filled", "%"],
  ["brix", "Dissolved sugar", "Brix"],
  ["serve_temperature_c", "Served at", "°C"],
  ["energy_kcal", "Energy", "kcal"],
  ["cost", "Cost", ""],
];

/** The page, empty until it is sent its first cards. `nonce` lets its own script run and no other. */
export function shell(nonce: string): string {
  return `<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'; script-src 'nonce-${nonce}'">
<title>Figures</title>
<style>
body { font-family: var(--vscode-font-family); font-size: var(--vscode-font-size); color: var(--vscode-foreground); padding: 0.4em 0 2em; }
section { padding: 0.8em 1.2em 0.6em; border-left: 3px solid transparent; scroll-margin-top: 0.4em; }
section.at-hand { border-left-color: var(--vscode-focusBorder); }
h2 { font-size: 1.15em; margin: 0 0 0.3em; }
h2 small { font-weight: normal; color: var(--vscode-descriptionForeground); margin-left: 0.6em; }
table { border-collapse: collapse; width: 100%; max-width: 34em; }
th { text-align: left; font-weight: normal; color: var(--vscode-descriptionForeground); padding: 0.15em 1em 0.15em 0; }
td { text-align: right; font-variant-numeric: tabular-nums; padding: 0.15em 0.4em; white-space: nowrap; }
td.unit { text-align: left; color: var(--vscode-descriptionForeground); }
td.range, th.range { text-align: right; color: var(--vscode-descriptionForeground); padding: 0.15em 0.4em; }
tr { border-bottom: 1px solid var(--vscode-widget-border, transparent); }
p { margin: 0.5em 0; max-width: 34em; }
.unknown { color: var(--vscode-editorWarning-foreground); }
.none { white-space: pre-wrap; margin: 0.5em 1.2em; }
</style>
</head>
<body>
<main></main>
<script nonce="${nonce}">
const main = document.querySelector("main");
let shown;
window.addEventListener("message", ({ data: { cards, line } }) => {
  if (cards !== undefined) main.innerHTML = cards;
  const sections = [...main.querySelectorAll("section")];
  const at = sections.filter((section) => Number(section.dataset.line) <= line).pop();
  for (const section of sections) section.classList.toggle("at-hand", section === at);
  if (at !== undefined && at.dataset.line !== shown) at.scrollIntoView();
  shown = at?.dataset.line;
});
</script>
</body>
</html>`;
}

/** The cards of an answer, as HTML. */
export function cards(answer: Answer): string {
  if (answer.problem !== undefined) {
    return `<p class="none">${escaped(answer.problem)}</p>`;
  }
  const entries = answer.entries ?? [];
  return entries.length === 0
    ? `<p class="none">No drink and no prep stands in this file yet.</p>`
    : entries.map(card).join("\n");
}

function card(entry: Entry): string {
  const rows = SHOWN.map(([key, name, unit]) => row(entry.figures[key], name, unit)).join("");
  const table =
    rows === ""
      ? `<p class="unknown">No figures: a line can't be read, or an ingredient is unknown.</p>`
      : `<table><thead><tr><th></th><th></th><th></th><th class="range" scope="col">19 of 20 lie in</th></tr></thead><tbody>${rows}</tbody></table>`;
  const carried = entry.allergens.map(({ allergen, detail }) =>
    detail === undefined || detail === null ? allergen : `${allergen} (${detail})`,
  );
  const contains = carried.length === 0 ? "none found in its lines" : carried.join(", ");
  const unknown =
    entry.allergens_unknown.length === 0
      ? ""
      : `<p class="unknown">Nobody vouches for: ${escaped(entry.allergens_unknown.join(", "))}</p>`;
  const family = entry.family.length === 0 ? entry.kind : `${entry.kind}, ${entry.family.join(", ")}`;
  return `<section data-line="${entry.line}">
<h2>${escaped(entry.entry)}<small>${escaped(family)}</small></h2>
${table}
<p>Allergens: ${escaped(contains)}. The labels decide.</p>
${unknown}
</section>`;
}

function row(value: Entry["figures"][string] | undefined, name: string, unit: string): string {
  if (!isRange(value)) {
    return "";
  }
  const half = (value.high - value.low) / 2;
  const range = `${digits(value.low, half)} to ${digits(value.high, half)}`;
  return `<tr><th scope="row">${name}</th><td>${digits(value.value, half)}</td><td class="unit">${escaped(value.currency ?? unit)}</td><td class="range">${range}</td></tr>`;
}

function isRange(value: unknown): value is Range {
  return typeof value === "object" && value !== null && "value" in value && "low" in value;
}

/** Three digits, as much as a bar can use, and no more than two of half the range. */
function digits(value: number, half: number): string {
  const size = Math.abs(value);
  const places = size >= 100 ? 0 : size >= 10 ? 1 : 2;
  const most = half >= 9.5 ? 0 : half >= 0.95 ? 1 : 2;
  return value.toFixed(Math.min(places, most));
}

function escaped(text: string): string {
  const signs: Record<string, string> = { "&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;" };
  return text.replace(/[&<>"]/g, (sign) => signs[sign] ?? sign);
}
