-- A session on a book in a headless Neovim: what a bar lead does in a shift, each answer checked.
--
--   nvim --headless --clean -l session.lua PROGRAM
--
-- Prints a line for each thing that was tried; ends with status 1 at the first that is not as it
-- should be. Every wait is for something to happen, with a bound.

local program = assert(arg[1], "which program?")
local here = vim.fs.dirname(vim.fs.normalize(vim.uv.fs_realpath(arg[0])))
local BOUND = 30000

local BOOK = {
  "drink: Slate Ferry",
  "  family: sour",
  "  glass: coupe, chilled",
  "  contains: none",
  "",
  "  60 ml  gin",
  "  1,5 oz  lemon juice",
  "  22.5 ml  honey syrup",
  "",
  "  - shake with ice for 12 s, double strain",
  "  garnish: none",
  "",
  "prep: Honey Syrup",
  "  yields: 715 ml",
  "  keeps: 2 weeks chilled",
  "",
  "  600 g  honey",
  "  300 g  water",
  "",
  "  - warm to 50 C, stir until even",
  "  - cool, bottle, label, refrigerate",
}

local function try(what, ok, detail)
  if not ok then
    io.stderr:write(("not ok  %s\n%s\n"):format(what, detail and vim.inspect(detail) or ""))
    os.exit(1)
  end
  io.stdout:write(("ok  %s\n"):format(what))
end

local folder = vim.fn.tempname()
vim.fn.mkdir(folder, "p")
vim.fn.writefile({ "" }, folder .. "/washline.toml")
vim.fn.writefile(BOOK, folder .. "/list.pour")

-- The configuration as its README says, but with the program that is tried.
package.path = here .. "/../?.lua;" .. package.path
require("washline")
vim.lsp.config("washline", { cmd = { program, "lsp" } })
vim.cmd.filetype("on")
vim.cmd.edit(folder .. "/list.pour")
local buffer = vim.api.nvim_get_current_buf()
try("the file type is pour", vim.bo[buffer].filetype == "pour", vim.bo[buffer].filetype)

local function client()
  return vim.lsp.get_clients({ bufnr = buffer, name = "washline" })[1]
end
vim.wait(BOUND, function()
  return client() ~= nil and client().initialized
end, 10)
try("the server runs", client() ~= nil)

local function found(rule)
  for _, diagnostic in ipairs(vim.diagnostic.get(buffer)) do
    if diagnostic.code == rule then
      return diagnostic
    end
  end
end
local function until_found(rule, there)
  return vim.wait(BOUND, function()
    return (found(rule) ~= nil) == there
  end, 10)
end
try("diagnostics: a decimal comma is flagged", until_found("decimal-comma", true), vim.diagnostic.get(buffer))

-- Lines and columns count from 0, columns in the client's own units.
local function at(line, character)
  return {
    textDocument = { uri = vim.uri_from_bufnr(buffer) },
    position = { line = line, character = character },
  }
end
local function ask(method, params)
  local answer = client():request_sync(method, params, BOUND, buffer)
  try(method .. " is answered", answer ~= nil and answer.err == nil, answer)
  return answer.result
end
local function text()
  return vim.api.nvim_buf_get_lines(buffer, 0, -1, false)
end

local hover = ask("textDocument/hover", at(0, 8))
local value = hover.contents.value or ""
try("hover: the heading shows the strength", value:find("%% vol") ~= nil, hover)

try("figures: they stand by the heading", vim.wait(BOUND, function()
  local lens = vim.lsp.codelens.get(buffer)[1]
  return lens ~= nil and lens.command ~= nil and lens.command.title:find("%% vol") ~= nil
end, 10), vim.lsp.codelens.get(buffer))

local items = ask("textDocument/completion", at(5, 10))
items = items.items or items
try("completion: names are offered", #items > 0, items)

local to = ask("textDocument/definition", at(7, 12))
to = to[1] or to
local range = to.range or to.targetSelectionRange
try("definition: the syrup is the prep below", range.start.line == 12, to)

local actions = ask("textDocument/codeAction", {
  textDocument = at(0, 0).textDocument,
  range = { start = { line = 6, character = 2 }, ["end"] = { line = 6, character = 5 } },
  context = { diagnostics = vim.lsp.diagnostic.from({ found("decimal-comma") }) },
})
local mend
for _, action in ipairs(actions) do
  if action.kind == "quickfix" and action.title:find("1.5", 1, true) then
    mend = action
  end
end
try("code action: the comma has its mend", mend ~= nil, actions)
if mend.edit == nil then
  mend = ask("codeAction/resolve", mend)
end
vim.lsp.util.apply_workspace_edit(mend.edit, client().offset_encoding)
try("code action: it changes the text", text()[7]:find("1.5 oz", 1, true) ~= nil, text())
try("diagnostics: the finding is gone", until_found("decimal-comma", false), vim.diagnostic.get(buffer))

local rename = at(12, 8)
rename.newName = "Clover Syrup"
vim.lsp.util.apply_workspace_edit(ask("textDocument/rename", rename), client().offset_encoding)
local renamed = table.concat(text(), "\n")
try("rename: the heading and the line follow", renamed:find("prep: Clover Syrup", 1, true) and renamed:lower():find("22.5 ml  clover syrup", 1, true), text())

local edits = ask("textDocument/formatting", {
  textDocument = at(0, 0).textDocument,
  options = { tabSize = 2, insertSpaces = true },
})
vim.lsp.util.apply_text_edits(edits, buffer, client().offset_encoding)
try("formatting: names stand in a column", text()[6] == "  60 ml    gin" and text()[7] == "  1.5 oz   lemon juice", text())

local symbols = ask("textDocument/documentSymbol", { textDocument = at(0, 0).textDocument })
try("outline: two entries", #symbols == 2, symbols)

local process = client()
process:stop()
try("the server ends when it is told", vim.wait(5000, function()
  return process:is_stopped()
end, 10))
vim.fn.delete(folder, "rf")
os.exit(0)
