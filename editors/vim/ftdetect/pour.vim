autocmd BufNewFile,BufRead *.pour setfiletype pour
