; The lines of an entry stand two blanks in.
(entry) @indent.begin
(heading) @indent.zero
