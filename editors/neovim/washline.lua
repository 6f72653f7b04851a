-- Spec books in Neovim 0.11 or newer: the file type, the language server, figures over headings.
-- Put this file into ~/.config/nvim/lua/ and write `require("washline")` in init.lua.

vim.filetype.add({ extension = { pour = "pour" } })

vim.lsp.config("washline", {
  cmd = { "washline", "lsp" },
  filetypes = { "pour" },
  root_markers = { "washline.toml", ".git" },
  settings = { washline = { hints = { otherUnit = true, shares = false }, figures = true, links = true } },
})
vim.lsp.enable("washline")

vim.api.nvim_create_autocmd("FileType", {
  pattern = "pour",
  callback = function(event)
    vim.bo[event.buf].commentstring = "# %s"
    vim.bo[event.buf].expandtab = true
    vim.bo[event.buf].shiftwidth = 2
  end,
})

-- Figures over headings, now and after every change that is at rest.
local function figures(buffer)
  if vim.lsp.codelens.enable then
    vim.lsp.codelens.enable(true, { bufnr = buffer })
    return
  end
  local function refresh()
    vim.lsp.codelens.refresh({ bufnr = buffer })
  end
  vim.api.nvim_create_autocmd({ "BufEnter", "InsertLeave", "TextChanged", "BufWritePost" }, { buffer = buffer, callback = refresh })
  refresh()
end

vim.api.nvim_create_autocmd("LspAttach", {
  callback = function(event)
    local client = vim.lsp.get_client_by_id(event.data.client_id)
    if client == nil or client.name ~= "washline" then
      return
    end
    vim.lsp.inlay_hint.enable(true, { bufnr = event.buf })
    figures(event.buf)
  end,
})
