-- Drives Neovim as a pilot would, and writes what he would see as JSON to $FETTLE_SEEN.
-- Started by neovim.test.ts in a copy of the demo workspace, with the README's own lines as init file.
local seen = {}
-- One offer is shown in a menu as well.
vim.o.completeopt = "menuone"
local WAIT_MS = 5000

--- Lets the editor run for a moment: what it is sent is answered, and keys that were given are typed.
local function pause(ms)
  local running = coroutine.running()
  vim.defer_fn(function() assert(coroutine.resume(running)) end, ms)
  coroutine.yield()
end

--- Waits until a function gives something that is neither nil nor false, and gives it; nil when time is up.
local function await(look)
  local until_ms = vim.loop.now() + WAIT_MS
  repeat
    local found = look()
    if found then return found end
    pause(10)
  until vim.loop.now() > until_ms
end

--- One thing that a pilot does; an error is written down in its place, and the next is tried all the same.
local function step(name, act)
  local fine, result = pcall(act)
  if not fine then
    seen[name] = { error = tostring(result) }
  elseif result == nil then
    seen[name] = vim.NIL
  else
    seen[name] = result
  end
end

local function client()
  return vim.lsp.get_active_clients()[1]
end

local function open(path)
  vim.cmd("edit " .. path)
  await(function()
    return client() and client().initialized and vim.lsp.buf_is_attached(0, client().id)
  end)
end

--- Puts the cursor on the first place where a text stands, or on a part of it from a byte on.
local function go(text, offset)
  for number, line in ipairs(vim.api.nvim_buf_get_lines(0, 0, -1, false)) do
    local at = line:find(text, 1, true)
    if at then
      vim.api.nvim_win_set_cursor(0, { number, at - 1 + (offset or 0) })
      return
    end
  end
  error("no line holds " .. text)
end

local function findings()
  return vim.tbl_map(function(each)
    return string.format("%d:%d %s %s", each.lnum + 1, each.col + 1, each.code, vim.diagnostic.severity[each.severity])
  end, vim.diagnostic.get(0))
end

--- The findings, once `isSo` says yes to them and goes on to say so: after each of several changes they are told anew.
local function findingsOnce(isSo)
  await(function()
    if not isSo(findings()) then return false end
    pause(300)
    return isSo(findings())
  end)
  return findings()
end

--- The text of the floating window that an action opens; the window is closed again.
local function floating(act)
  local function window()
    for _, each in ipairs(vim.api.nvim_list_wins()) do
      if vim.api.nvim_win_get_config(each).relative ~= "" then return each end
    end
  end
  act()
  local shown = await(window)
  if not shown then return nil end
  local text = table.concat(vim.api.nvim_buf_get_lines(vim.api.nvim_win_get_buf(shown), 0, -1, false), "\n")
  vim.api.nvim_win_close(shown, true)
  return text
end

--- What an action lists in the quickfix or the location list, as FILE:LINE TEXT.
local function listed(act)
  vim.fn.setqflist({})
  vim.fn.setloclist(0, {})
  act()
  local items = await(function()
    for _, list in ipairs({ vim.fn.getqflist(), vim.fn.getloclist(0) }) do
      if #list > 0 then return list end
    end
  end) or {}
  vim.cmd("cclose")
  vim.cmd("lclose")
  return vim.tbl_map(function(item)
    local name = item.bufnr > 0 and vim.fn.fnamemodify(vim.fn.bufname(item.bufnr), ":t") or ""
    return string.format("%s:%d %s", name, item.lnum, vim.trim(item.text))
  end, items)
end

local function type_in(keys)
  vim.api.nvim_feedkeys(vim.api.nvim_replace_termcodes(keys, true, false, true), "t", false)
  pause(20)
end

--- Types, completes by <C-x><C-o>, takes the first offer, and gives what was offered and the line that came of it.
local function completed(keys)
  type_in(keys .. "<C-x><C-o>")
  local offered = await(function()
    return vim.fn.pumvisible() == 1 and vim.fn.complete_info({ "items" }).items
  end) or {}
  type_in("<C-y><Esc>")
  local words = vim.tbl_map(function(item) return item.abbr ~= "" and item.abbr or item.word end, offered)
  return { offered = words, line = vim.api.nvim_get_current_line() }
end

local function can(name)
  return client().server_capabilities[name] and true or false
end

local function format()
  if vim.lsp.buf.format then vim.lsp.buf.format({ timeout_ms = WAIT_MS }) else vim.lsp.buf.formatting_sync(nil, WAIT_MS) end
end

local function version() return vim.api.nvim_buf_get_changedtick(0) end

-- Refusals reach the pilot as messages.
local said = {}
vim.notify = function(message) table.insert(said, message) end

local function fly()
  step("version", function() return tostring(vim.version().major .. "." .. vim.version().minor) end)

  open("craft/wobbly-jug.fettle")
  step("filetype", function() return { vim.bo.filetype, vim.bo.omnifunc, vim.bo.commentstring } end)
  step("colours", function()
    local function colour(text, offset)
      go(text, offset)
      local place = vim.api.nvim_win_get_cursor(0)
      return vim.fn.synIDattr(vim.fn.synID(place[1], place[2] + 1, 1), "name")
    end
    return { colour("# The newcomer", 3), colour("craft \"W"), colour("  chemistry", 3), colour("craft \"Wobbly", 8) }
  end)
  step("capabilities", function() return vim.tbl_keys(client().server_capabilities) end)
  step("findings", function() return findingsOnce(function(all) return #all > 10 end) end)
  step("hover", function()
    go("warn-at")
    return floating(vim.lsp.buf.hover)
  end)
  step("document symbols", function() return listed(vim.lsp.buf.document_symbol) end)
  step("code action", function()
    go("levle-blend")
    local titles
    vim.ui.select = function(items, options, choose)
      titles = vim.tbl_map(options.format_item, items)
      choose(items[1])
    end
    local before = version()
    vim.lsp.buf.code_action()
    await(function() return version() ~= before end)
    return { titles = titles, line = vim.api.nvim_get_current_line() }
  end)
  step("findings after it", function()
    return findingsOnce(function(all)
      return #all > 0 and not vim.tbl_contains(all, "45:3 unknown-name ERROR")
    end)
  end)

  open("craft/tankard.fettle")
  step("findings of a craft that flies well", function() return findingsOnce(function(all) return #all == 0 end) end)
  step("completion of a name", function()
    go("  capacity          1100 mAh")
    local answer = completed("owarn-a")
    vim.cmd("undo")
    return answer
  end)
  step("completion of a unit", function()
    go("  capacity          1100 mAh")
    local answer = completed("ohover-current  5 m")
    vim.cmd("undo")
    return answer
  end)
  step("completion of several parts", function()
    go("slope 60 deg/s  end 320 deg/s")
    local answer = completed("oro")
    vim.cmd("undo")
    return answer
  end)
  step("signature", function()
    go("slope 60 deg/s")
    return floating(vim.lsp.buf.signature_help)
  end)
  step("edits", function()
    go("1100 mAh")
    type_in("cw11 kettles<Esc>")
    local faulty = findingsOnce(function(all) return #all > 0 end)
    vim.cmd("undo")
    return { faulty = faulty, mended = findingsOnce(function(all) return #all == 0 end) }
  end)
  step("edits of a line with wide letters", function()
    go("# four fifths")
    type_in("A 🫖🫖 ü<Esc>")
    type_in("o  land-at  kettle  # 🫖<Esc>")
    local faulty = findingsOnce(function(all) return #all > 0 end)
    vim.cmd("undo")
    vim.cmd("undo")
    return { faulty = faulty, mended = findingsOnce(function(all) return #all == 0 end) }
  end)
  step("definition", function()
    go("KN from")
    vim.lsp.buf.definition()
    await(function() return vim.fn.expand("%:t") ~= "tankard.fettle" end)
    local line = vim.api.nvim_get_current_line()
    local file = vim.fn.expand("%:t")
    return { file, line }
  end)

  open("craft/tankard.fettle")
  if can("referencesProvider") then
    step("references", function()
      go("KN from")
      return listed(vim.lsp.buf.references)
    end)
  end
  if can("documentHighlightProvider") then
    step("highlights", function()
      go("FL is mid")
      local place = vim.api.nvim_create_namespace("vim_lsp_references")
      vim.lsp.buf.document_highlight()
      await(function() return #vim.api.nvim_buf_get_extmarks(0, place, 0, -1, {}) > 0 end)
      return vim.tbl_map(function(mark) return mark[2] + 1 end, vim.api.nvim_buf_get_extmarks(0, place, 0, -1, {}))
    end)
  end
  if can("workspaceSymbolProvider") then
    step("workspace symbols", function() return listed(function() vim.lsp.buf.workspace_symbol("tail-lamp") end) end)
  end
  if can("callHierarchyProvider") then
    step("incoming calls", function()
      -- On a layer it would ask for which craft.
      go("not up and arm", 11)
      return listed(vim.lsp.buf.incoming_calls)
    end)
  end
  if can("documentFormattingProvider") then
    step("format", function()
      go("  cells             6")
      vim.api.nvim_set_current_line("    cells 6   ")
      local messy = vim.api.nvim_get_current_line()
      format()
      return { messy, vim.api.nvim_get_current_line(), findingsOnce(function(all) return #all == 0 end) }
    end)
  end
  if can("renameProvider") then
    step("rename", function()
      go("KN from")
      local before = version()
      vim.lsp.buf.rename("KW")
      await(function() return version() ~= before end)
      local line = vim.api.nvim_get_current_line()
      local changed = {}
      for _, buffer in ipairs(vim.api.nvim_list_bufs()) do
        if vim.bo[buffer].modified then table.insert(changed, vim.fn.fnamemodify(vim.fn.bufname(buffer), ":t")) end
      end
      table.sort(changed)
      return { line = line, changed = changed, findings = findingsOnce(function(all) return #all == 0 end) }
    end)
    step("rename refused", function()
      go("capacity")
      said = {}
      vim.lsp.buf.rename("fuel")
      await(function() return #said > 0 end)
      local refused = said
      said = {}
      return refused
    end)
  end

  step("two roots", function()
    local folder = vim.env.FETTLE_OTHER_FOLDER
    vim.lsp.buf.add_workspace_folder(folder)
    open(folder .. "/jug.fettle")
    local found = findingsOnce(function(all) return #all == 1 end)
    go("TL is down")
    vim.lsp.buf.definition()
    await(function() return vim.fn.expand("%:t") ~= "jug.fettle" end)
    return { findings = found, definition = vim.fn.expand("%:t"), clients = #vim.lsp.get_active_clients() }
  end)
  step("messages", function() return said end)
  step("end", function()
    local id = client().id
    client().stop()
    return await(function() return vim.lsp.get_client_by_id(id) == nil end)
  end)

  local out = io.open(vim.env.FETTLE_SEEN, "w")
  out:write(vim.fn.json_encode(seen))
  out:close()
  vim.cmd("qall!")
end

-- Keys are typed only once the editor waits for them, so it all happens beside its own loop.
vim.schedule(coroutine.wrap(fly))
