;;; pour-mode.el --- Spec books of a bar -*- lexical-binding: t -*-

;; Package-Requires: ((emacs "28.1"))

;;; Commentary:

;; A mode for `.pour' files, and the language server for eglot.

;;; Code:

(defvar pour-mode-syntax-table
  (let ((table (make-syntax-table text-mode-syntax-table)))
    (modify-syntax-entry ?# "<" table)
    (modify-syntax-entry ?\n ">" table)
    table)
  "Remarks run from `#' to the end of the line.")

(defconst pour-mode-font-lock
  '(("^[ \t]*\\(drink\\|prep\\|stock\\|book\\|section\\)[ \t]*:[ \t]*\\([^#\n]*\\)"
     (1 font-lock-keyword-face) (2 font-lock-function-name-face))
    ("^[ \t]*\\([a-z][a-z-]*\\)[ \t]*:" 1 font-lock-variable-name-face)
    ("^[ \t]*\\(-\\)[ \t]+\\([^ ,#\n]*\\)"
     (1 font-lock-keyword-face) (2 font-lock-builtin-face))
    ("^[ \t]*~?[0-9½¼¾⅓⅔⅛][0-9½¼¾⅓⅔⅛.,/ -]*[ \t]*[a-z]+" 0 font-lock-constant-face)
    ("([ \t]*[0-9½¼¾⅓⅔⅛][^)\n]*)" 0 font-lock-constant-face))
  "Colours by the shape of a line.")

;;;###autoload
(define-derived-mode pour-mode prog-mode "Pour"
  "A mode for spec books of a bar."
  :syntax-table pour-mode-syntax-table
  (setq-local comment-start "# "
              comment-start-skip "#+[ \t]*"
              indent-tabs-mode nil
              tab-width 2
              case-fold-search t
              font-lock-defaults '(pour-mode-font-lock nil t)
              imenu-generic-expression
              '((nil "^[ \t]*\\(?:drink\\|prep\\|stock\\)[ \t]*:[ \t]*\\(.+\\)$" 1))))

;;;###autoload
(add-to-list 'auto-mode-alist '("\\.pour\\'" . pour-mode))

(defvar eglot-server-programs)

(with-eval-after-load 'eglot
  (add-to-list 'eglot-server-programs '(pour-mode . ("washline" "lsp"))))

(provide 'pour-mode)
;;; pour-mode.el ends here
