;;; session.el --- A session on a book -*- lexical-binding: t -*-

;;; Commentary:

;; What a bar lead does in a shift, each answer checked:
;;
;;   emacs --batch -l session.el PROGRAM
;;
;; Prints a line for each thing that was tried; ends with status 1 at the first that is not as it
;; should be.  Every wait is for something to happen, with a bound.

;;; Code:

(require 'package)
(package-initialize)
(require 'cl-lib)
(require 'eglot)
(require 'flymake)
(require 'imenu)

(defconst session-program (expand-file-name (pop command-line-args-left)))
(defconst session-folder (file-name-as-directory (make-temp-file "washline-emacs-" t)))
(defconst session-bound 30)

(defconst session-list "\
drink: Slate Ferry
  family: sour
  glass: coupe, chilled
  contains: none

  60 ml  gin
  1,5 oz  lemon juice
  22.5 ml  honey syrup

  - shake with ice for 12 s, double strain
  garnish: none
")

(defconst session-preps "\
prep: Honey Syrup
  yields: 715 ml
  keeps: 2 weeks chilled

  600 g  honey
  300 g  water

  - warm to 50 C, stir until even
  - cool, bottle, label, refrigerate
")

(defun session-try (what ok &optional detail)
  "Say that WHAT is OK, or end with DETAIL."
  (unless ok
    (message "not ok  %s\n%S" what detail)
    (kill-emacs 1))
  (message "ok  %s" what))

(defun session-rest ()
  "Do what Emacs does when nobody types, which a batch run leaves out."
  (dolist (timer (copy-sequence timer-idle-list))
    (timer-event-handler timer)))

(defun session-until (look)
  "Wait until LOOK gives something, and give that; nil after the bound."
  (let ((end (+ (float-time) session-bound)) seen)
    (while (and (not (setq seen (funcall look))) (< (float-time) end))
      (session-rest)
      (accept-process-output nil 0.05))
    seen))

(defun session-to (words)
  "Put point at the first WORDS of the buffer."
  (goto-char (point-min))
  (search-forward words)
  (goto-char (match-beginning 0)))

(defun session-found (rule)
  "The diagnostic of RULE, if it stands in the buffer."
  (cl-find-if (lambda (one) (string-match-p (regexp-quote rule) (flymake-diagnostic-text one)))
              (flymake-diagnostics)))

(defun session-write (name text)
  "Write TEXT to the file NAME of the book."
  (write-region text nil (concat session-folder name) nil 'silent))

(defun session-run ()
  "The session."
  (session-write "washline.toml" "")
  (session-write "list.pour" session-list)
  (session-write "preps.pour" session-preps)
  (find-file (concat session-folder "list.pour"))
  (session-try "the mode is pour-mode" (eq major-mode 'pour-mode) major-mode)
  (run-hooks 'post-command-hook)        ; a batch run has no command loop
  (session-try "the server runs" (session-until #'eglot-current-server))

  (flymake-start)
  (session-try "diagnostics: a decimal comma is flagged"
               (session-until (lambda () (session-found "decimal-comma"))) (flymake-diagnostics))

  (session-to "Slate Ferry")
  (let (told)
    (eglot-hover-eldoc-function (lambda (text &rest _) (setq told text)))
    (session-try "hover: the heading shows the strength"
                 (session-until (lambda () (and told (string-match-p "% vol" told)))) told))

  (session-to "honey syrup")
  (forward-char 2)
  (let* ((capf (eglot-completion-at-point))
         (names (all-completions "" (nth 2 capf))))
    (session-try "completion: the prep is offered" (member "Honey Syrup" names) names))

  (session-to "honey syrup")
  (xref-find-definitions (thing-at-point 'symbol))
  (session-try "definition: a line leads to the prep in another file"
               (and (string-suffix-p "preps.pour" buffer-file-name) (looking-at "Honey Syrup"))
               (list buffer-file-name (point)))

  (eglot-rename "Clover Syrup")
  (session-try "rename: the heading follows"
               (string-match-p "^prep: Clover Syrup$" (buffer-string)) (buffer-string))
  (find-file (concat session-folder "list.pour"))
  (session-try "rename: the line in the other file follows"
               (string-match-p "22.5 ml +[Cc]lover [Ss]yrup$" (buffer-string)) (buffer-string))

  (session-to "1,5")
  (let* ((mends (eglot-code-actions (point) (+ (point) 3) "quickfix"))
         (mend (cl-find-if (lambda (one) (string-search "1.5" (plist-get one :title))) mends)))
    (session-try "code action: the comma has its mend" mend mends)
    (eglot--dbind (edit) mend (eglot--apply-workspace-edit edit)))
  (session-try "code action: it changes the text" (string-match-p "1\\.5 oz" (buffer-string)) (buffer-string))
  (session-try "diagnostics: the finding is gone"
               (session-until (lambda () (and (not (session-found "decimal-comma"))
                                                    (not (session-found "unknown-ingredient"))))) (flymake-diagnostics))

  (eglot-format-buffer)
  (session-try "formatting: names stand in a column"
               (string-match-p "^  60 ml    gin\n  1.5 oz   lemon juice$" (buffer-string)) (buffer-string))

  (font-lock-ensure)
  (session-to "drink")
  (session-try "colours: a heading has its face" (eq (get-text-property (point) 'face) 'font-lock-keyword-face))
  (session-to "Slate Ferry")
  (session-try "colours: a name has its face" (eq (get-text-property (point) 'face) 'font-lock-function-name-face))
  (session-to "shake")
  (comment-line 1)
  (session-try "remarks: a line is put behind a sign and back"
               (and (string-match-p "^  # - shake" (buffer-string))
                    (progn (session-to "# - shake") (comment-line 1) (string-match-p "^  - shake" (buffer-string))))
               (buffer-string))

  (let ((process (jsonrpc--process (eglot-current-server))))
    (eglot-shutdown (eglot-current-server))
    (session-try "the server ends when it is told" (session-until (lambda () (not (process-live-p process)))))))

;; The configuration as its README says, but with the program that is tried.
(add-to-list 'load-path (expand-file-name ".." (file-name-directory load-file-name)))
(require 'pour-mode)
(add-hook 'pour-mode-hook #'eglot-ensure)
(setf (alist-get 'pour-mode eglot-server-programs) (list session-program "lsp"))
(setq eglot-confirm-server-initiated-edits nil
      eglot-sync-connect t
      create-lockfiles nil
      make-backup-files nil)

(unwind-protect
    (session-run)
  (delete-directory session-folder t))

(provide 'session)
;;; session.el ends here
