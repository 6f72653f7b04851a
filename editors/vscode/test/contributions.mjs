// What the extension contributes as data: every command has a title, every setting is told.
//
//   node contributions.mjs

import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { join, resolve } from "node:path";

const extension = resolve(import.meta.dirname, "..");
const manifest = read("package.json");

commandsHaveTitles();
settingsAreTold();

function read(name) {
  return JSON.parse(readFileSync(join(extension, name), "utf8"));
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
