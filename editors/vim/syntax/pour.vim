" Colours by the shape of a line: heading, field, step, amount, remark.
if exists('b:current_syntax')
  finish
endif

syntax case ignore
syntax match pourKey /^\s*\a[a-z-]*\ze\s*:/
syntax match pourHeading /^\s*\(drink\|prep\|stock\|book\|section\)\s*:.*$/ contains=pourKind,pourRemark
syntax match pourKind /^\s*\(drink\|prep\|stock\|book\|section\)\ze\s*:/ contained
syntax match pourStep /^\s*-\s\+[^ ,#]*/
syntax match pourAmount /^\s*\~\?[0-9½¼¾⅓⅔⅛][0-9½¼¾⅓⅔⅛.,\/ -]*\s*\(ml\|cl\|dl\|l\|oz\|tsp\|tbsp\|dash\(es\)\?\|drops\?\|bsp\|g\|kg\|parts\?\)\>/
syntax match pourSecond /(\s*[0-9½¼¾⅓⅔⅛][^)]*)/
syntax match pourRemark /\(^\|\s\)#.*$/

highlight default link pourHeading Title
highlight default link pourKind Keyword
highlight default link pourKey Identifier
highlight default link pourStep Statement
highlight default link pourAmount Number
highlight default link pourSecond Number
highlight default link pourRemark Comment

let b:current_syntax = 'pour'
