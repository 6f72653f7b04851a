; What is shown how, with the capture names that editors share.

(comment) @comment

(kind) @keyword
(entry_name) @type

(key) @property
(unknown_key) @variable.parameter
(text) @string
(value) @string.special

(quantity) @number
(unit) @type.builtin
(amount_word) @keyword.modifier
(vague) @keyword.modifier
(part) @keyword.modifier
(of) @keyword.operator
(each) @keyword.operator
(plus) @operator

(name) @variable
(qualifier) @attribute
(role) @keyword.modifier
(property) @constant

(bullet) @punctuation.special
(adverb) @attribute
(technique) @function
(duration) @number
(temperature) @number
(joint) @punctuation.delimiter

(heading ":" @punctuation.delimiter)
(field ":" @punctuation.delimiter)
(ingredient "," @punctuation.delimiter)
(open) @punctuation.bracket
(second ")" @punctuation.bracket)
(ingredient ")" @punctuation.bracket)

(unreadable) @error
