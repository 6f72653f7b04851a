// What the extension contributes as data: the problem matcher reads every line that the program
// prints, every command has a title, every setting is told.
//
//   node contributions.mjs PROGRAM

import assert from "node:assert/strict";
import { spawnSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { join, resolve } from "node:path";

const extension = resolve(import.meta.dirname, "..");
const program = resolve(process.argv[2]);
const manifest = read("package.json");

/** The severities that VS Code reads in a matched line; any other word it takes for an error. */
const SEVERITIES = { error: "error", warning: "warning", info: "information", hint: "hint" };

matcherReadsFindings();
commandsHaveTitles();
settingsAreTold();

function read(name) {
  return JSON.parse(readFileSync(join(extension, name), "utf8"));
}

function run(cwd, ...args) {
  const { stdout, stderr, status } = spawnSync(program, args, { cwd, encoding: "utf8" });
  return { stdout, stderr, status };
}

/** The matcher's reading of the short form is what the JSON form says, finding by finding. */
function matcherReadsFindings() {
  const corpus = resolve(extension, "../../corpus");
  const [{ pattern }] = manifest.contributes.problemMatchers;
  const shape = new RegExp(pattern.regexp);
  const lines = run(corpus, "check", "--output", "short", ".").stdout.split("\n").filter((line) => line !== "");
  const matched = lines.map((line) => {
    const found = shape.exec(line);
    assert(found !== null, `not matched: ${line}`);
    const of = (key) => found[pattern[key]];
    return [of("file"), of("line"), of("column"), SEVERITIES[of("severity")], of("code")].join(" ");
  });
  const findings = JSON.parse(run(corpus, "check", "--output", "json", ".").stdout).findings;
  const told = findings
    .filter(({ waived, baselined }) => !waived && !baselined)
    .map(({ file, range: { start }, severity, rule }) => [file, start.line, start.column, severity, rule].join(" "));
  assert(told.length > 20, "the corpus has findings");
  assert.deepEqual(matched.filter((one) => !told.includes(one)), []);
  assert.equal(matched.length, told.length);
  console.log(`ok  the problem matcher reads ${matched.length} findings`);
}

function commandsHaveTitles() {
  for (const { command, title, category } of manifest.contributes.commands) {
    assert(category === "Washline" && /^[A-Z]/.test(title), `${command} has no title`);
  }
  console.log("ok  every command has a title");
}

/** Every setting is described, and the page of the extension names it. */
function settingsAreTold() {
  const page = readFileSync(join(extension, "README.md"), "utf8");
  for (const [name, setting] of Object.entries(manifest.contributes.configuration.properties)) {
    assert(setting.description ?? setting.markdownDescription, `${name} is not described`);
    assert(page.includes(`\`${name}\``), `the page does not name ${name}`);
  }
  console.log("ok  every setting is described");
}
