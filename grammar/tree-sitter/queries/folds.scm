; An entry folds into its heading.
(entry) @fold
