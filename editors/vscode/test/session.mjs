// A shift in the workbench: the demo book opened, read, mended, renamed and checked, as a person does
// it, each answer looked at.
//
//   node session.mjs PROGRAM CODE-SERVER BROWSER [PICTURES]
//
// Prints a line for each thing that was tried; ends with status 1 at the first that is not as it
// should be, with a picture of the moment. Every wait is for something to happen, with a bound.

import { execFileSync } from "node:child_process";
import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { machineSettings, openWorkbench, until } from "./workbench.mjs";

const here = import.meta.dirname;
const [program, codeServer, browser, pictures] = process.argv.slice(2).map((path) => resolve(path));
const home = mkdtempSync(join(tmpdir(), "washline-workbench-"));
const book = join(home, "book");
cpSync(join(here, "../../../corpus/house"), book, { recursive: true });

const read = (name) => readFileSync(join(book, name), "utf8");
const change = (name, from, to) => {
  const text = read(name);
  if (!text.includes(from)) {
    throw new Error(`${name} no longer says ${from}`);
  }
  writeFileSync(join(book, name), text.replace(from, to));
};
/** Where `words` stand first in a file: line and column from 1. */
const place = (name, words) => {
  const before = read(name).split(words)[0].split("\n");
  return [before.length, before.at(-1).length + 1];
};

const warm = read("warm.pour");
// What a tired hand does: a decimal comma, a line out of its column, an allergen that nobody declared.
change("shaken.pour", "52.5 ml   (1 3/4 oz)  pear brandy", "52,5 ml (1 3/4 oz) pear brandy");
change("warm.pour", "contains: milk", "contains: none");

function ok(what) {
  console.log(`ok  ${what}`);
}

const workbench = await openWorkbench({
  codeServer,
  browser,
  extension: join(here, "../washline.vsix"),
  settings: { "washline.path": program },
  home,
  folder: book,
  pictures: pictures ?? join(home, "pictures"),
});
const { page } = workbench;
try {
  await figuresWhileReading();
  await findingsAndMends();
  await names();
  await completion();
  await layout();
  await figuresBeside();
  await wholeBook();
  await newBook();
  await walkthrough();
  await withoutProgram();
} catch (error) {
  await workbench.picture("not-ok").catch(() => undefined);
  console.error(`not ok  ${error.stack}`);
  process.exitCode = 1;
} finally {
  await workbench.close();
  if (process.exitCode !== 1) {
    rmSync(home, { recursive: true, force: true, maxRetries: 5 });
  }
}

async function figuresWhileReading() {
  await workbench.open("shaken.pour");
  await until("the language is named", async () => (await workbench.status("status.editor.mode")) === "Spec book");
  ok("a .pour file is a spec book");
  await until("the status item", async () => (await workbench.status("washline.washline.washline")).includes("washline"));
  ok("the status item stands there");
  await until("figures over headings", async () => (await workbench.texts(".codelens-decoration")).some((text) => text.includes("% vol")));
  ok("figures stand over the headings");
  await workbench.picture("book");

  await workbench.goTo(...place("shaken.pour", "Quarry Lane"));
  await workbench.command("Show or Focus Hover");
  const hover = await until("hover", async () => (await workbench.texts(".monaco-hover:not(.hidden) .hover-contents")).find((text) => text.includes("% vol")));
  ok(`hover over a heading: ${hover.slice(0, 60).replaceAll("\n", " ")}`);
  await workbench.picture("hover");
  await page.keyboard.press("Escape");
}

async function findingsAndMends() {
  await until("a squiggle", async () => (await page.locator(".squiggly-error, .squiggly-warning").count()) > 0);
  await workbench.command("Problems: Focus on Problems View");
  const problem = await until("the problems panel", async () => (await workbench.texts(".markers-panel .monaco-list-row")).find((label) => label.includes("decimal-comma")));
  ok(`the finding stands in the problems panel: ${problem}`);
  await workbench.picture("problems");
  await workbench.command("View: Hide Panel");

  await page.locator(".editor-instance .view-lines").first().click();
  await workbench.goTo(...place("shaken.pour", "52,5 ml"));
  await page.keyboard.press("Control+.");
  await page.locator(".action-widget .monaco-list-row.focused", { hasText: "52.5" }).waitFor();
  await workbench.picture("mends");
  await page.keyboard.press("Enter");
  await until("the finding is gone", async () => (await page.locator(".squiggly-error, .squiggly-warning").count()) === 0);
  await workbench.saveAll();
  await until("the text is mended", () => read("shaken.pour").includes("52.5 ml (1 3/4 oz) pear brandy"));
  ok("a mend changes the text, and the finding goes");
}

async function names() {
  await workbench.goTo(...place("shaken.pour", "Honey Syrup"));
  await page.keyboard.press("F12");
  await page.locator('.tab.active[data-resource-name="preps.pour"]').waitFor();
  const [line] = place("preps.pour", "prep: Honey Syrup");
  await until("the cursor is at the prep", async () => (await workbench.status("status.editor.selection")).startsWith(`Ln ${line},`));
  ok("definition: a line leads to the prep in another file");
  await workbench.picture("definition");

  await page.keyboard.press("F2");
  const input = page.locator(".rename-box input");
  await input.waitFor();
  await input.fill("Clover Syrup");
  await workbench.picture("rename");
  await page.keyboard.press("Enter");
  await input.waitFor({ state: "hidden" });
  await until("both files follow", async () => (await page.locator(".tab.dirty").count()) >= 2);
  await workbench.saveAll();
  await until("the prep has its new name", () => read("preps.pour").includes("prep: Clover Syrup"));
  const books = readdirSync(book).filter((name) => name.endsWith(".pour"));
  const left = books.filter((name) => /^ +\d.*honey syrup/im.test(read(name)));
  if (left.length > 0 || !read("shaken.pour").includes("Clover Syrup")) {
    throw new Error(`not every line followed the new name: ${left.join(", ")}`);
  }
  ok("rename: every line of the book follows");
}

async function completion() {
  await workbench.open("shaken.pour");
  const [row] = place("shaken.pour", "2 dashes");
  await workbench.goTo(row, 1);
  await page.keyboard.press("Control+Enter");
  await page.keyboard.type("15 ml  clo", { delay: 30 });
  await page.keyboard.press("Control+Space");
  const offered = await until("completion", async () => (await workbench.labels(".suggest-widget.visible .monaco-list-row")).find((label) => label.startsWith("Clover Syrup")));
  ok(`completion: ${offered}`);
  await workbench.picture("completion");
  await page.keyboard.press("Escape");
  await workbench.command("Revert File");
}

async function layout() {
  await workbench.open("shaken.pour");
  await workbench.command("Format Document");
  await until("the layout changed", async () => (await page.locator(".tab.dirty").count()) === 1);
  await workbench.saveAll();
  execFileSync(program, ["format", "--check", join(book, "shaken.pour")]);
  ok("format: the file is as `washline format` lays it out");
  await workbench.picture("formatted");
}

async function figuresBeside() {
  await page.locator('.editor-actions [aria-label^="Show the Figures Beside"]').first().click();
  const frame = page.frameLocator("iframe.webview.ready").last().frameLocator("#active-frame");
  await frame.getByRole("heading", { name: "Quarry Lane" }).waitFor();
  await frame.getByText("Strength").first().waitFor();
  ok("the figures stand beside the text");
  await workbench.picture("figures");
  await workbench.goTo(...place("shaken.pour", "Ember Yard"));
  const other = frame.locator("section.at-hand", { hasText: "Ember Yard" });
  await other.waitFor();
  await until("the card is in sight", async () => ((await other.boundingBox())?.y ?? 1000) < 200);
  ok("the figures go where the cursor goes");
  await workbench.picture("figures-at-hand");
  const row = frame.getByRole("row", { name: "Strength" }).first();
  const before = await row.textContent();
  await workbench.goTo(...place("shaken.pour", "52.5 ml"));
  await page.keyboard.press("Delete");
  await until("the figures follow", async () => (await row.textContent()) !== before);
  ok("the figures follow what is typed");
  await workbench.command("Revert File");
}

async function wholeBook() {
  await workbench.command("View: Close All Editors");
  await workbench.command("Washline: Check the Whole Book");
  const found = await until("a closed file's finding", async () => (await workbench.texts(".markers-panel .monaco-list-row")).find((label) => label.includes("undeclared-allergen")));
  ok(`the whole book is checked: ${found}`);
  await workbench.picture("whole-book");
  await standsOnce();
  const wrong = read("warm.pour");
  writeFileSync(join(book, "warm.pour"), warm);
  await until("the mended file", async () => (await told()).length === 0);
  ok("a file that is mended on disk needs not be opened to be seen");
  writeFileSync(join(book, "warm.pour"), wrong);
  await until("the finding again", async () => (await told()).length > 0);
  await standsOnce();
  await workbench.open("warm.pour");
  await workbench.goTo(28, 13);
  await until("the squiggle", async () => (await page.locator(".squiggly-error, .squiggly-warning").count()) > 0);
  await workbench.picture("opened-finding");
  await standsOnce();
  ok("a finding stands there once, be its file closed or open");
  await workbench.command("View: Close All Editors");
  await workbench.command("View: Hide Panel");
}

/** The rows of the problems panel that tell of the allergen. */
async function told() {
  const rows = await workbench.texts(".markers-panel .monaco-list-row");
  return rows.filter((row) => row.includes("undeclared-allergen"));
}

async function standsOnce() {
  const rows = await told();
  if (rows.length !== 1) {
    throw new Error(`one finding, ${rows.length} rows:\n${rows.join("\n")}`);
  }
}

async function newBook() {
  await workbench.command("Washline: New Spec Book");
  await until("the language is named", async () => (await workbench.status("status.editor.mode")) === "Spec book");
  await page.keyboard.type("drink", { delay: 30 });
  const row = page.locator(".suggest-widget.visible .monaco-list-row.focused", { hasText: "drink" });
  await row.waitFor();
  await workbench.picture("new-book");
  await page.keyboard.press("Enter");
  await until("the card has figures", async () => (await workbench.texts(".codelens-decoration")).some((text) => text.includes("% vol")));
  ok("a new book takes a card with its figures");
  await workbench.picture("new-card");
  await page.keyboard.press("Escape");
  await workbench.command("Revert and Close Editor");
}

async function walkthrough() {
  await workbench.command("Welcome: Open Walkthrough...", "Specs that pour the same");
  await page.locator(".gettingStartedContainer .step-title", { hasText: "Write a card" }).first().waitFor();
  ok("the walkthrough opens");
  await workbench.picture("walkthrough-program");
  for (const [title, name] of [["Write a card", "card"], ["See what is in the glass", "figures"], ["Check the whole book", "check"]]) {
    await page.locator(".gettingStartedContainer .step-title", { hasText: title }).first().click();
    await workbench.picture(`walkthrough-${name}`);
  }
  await workbench.command("View: Close All Editors");
}

async function withoutProgram() {
  writeFileSync(machineSettings(home), JSON.stringify({ "washline.path": "/nowhere/washline" }));
  const told = await until("the missing program is told", async () => (await workbench.texts(".notification-list-item-message")).find((text) => text.includes("not found")));
  ok(`without the program: ${told}`);
  await workbench.picture("no-program");
}
