" Spec books: comments, blanks, and the findings through :make.
if exists('b:did_ftplugin')
  finish
endif
let b:did_ftplugin = 1

setlocal commentstring=#\ %s comments=:#
setlocal expandtab shiftwidth=2 softtabstop=2
" Vim counts columns in bytes.
setlocal makeprg=washline\ check\ --columns\ bytes\ --output\ short\ %:S
setlocal errorformat=%f:%l:%c:\ %trror:\ %m,%f:%l:%c:\ %tarning:\ %m,%f:%l:%c:\ %tnformation:\ %m,%f:%l:%c:\ %tint:\ %m
setlocal equalprg=washline\ format\ -

let b:undo_ftplugin = 'setlocal commentstring< comments< expandtab< shiftwidth< softtabstop< makeprg< errorformat< equalprg<'
