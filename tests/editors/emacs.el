;;; Drives Emacs with eglot as a pilot would, and writes what he would see as JSON to $FETTLE_SEEN.  -*- lexical-binding: t -*-
;; Started by emacs.test.ts in a copy of the demo workspace, after the README's own lines.

(require 'eglot)
(require 'json)
(require 'seq)
(require 'xref)

(defvar seen nil)
(setq eglot-sync-connect t
      eglot-confirm-server-initiated-edits nil
      eglot-send-changes-idle-time 0
      flymake-no-changes-timeout nil
      make-backup-files nil
      auto-save-default nil)

(defun await (look)
  "Wait until LOOK gives something, and give it; nil when time is up."
  (let ((end (+ (float-time) 20)) found)
    (while (and (not (setq found (funcall look))) (< (float-time) end))
      (accept-process-output nil 0.02))
    found))

(defmacro step (name &rest body)
  "Note under NAME what BODY gives; an error is noted in its place."
  `(push (cons ,name (condition-case err (progn ,@body) (error (list (cons "error" (error-message-string err)))))) seen))

(defvar folder default-directory)

(defun visit (path)
  (find-file (expand-file-name path folder))
  ;; Where nobody types no command ends, and it is then that eglot begins.
  (run-hooks 'post-command-hook)
  (await (lambda () (and (eglot-current-server) eglot--managed-mode))))

(defun go (text)
  (goto-char (point-min))
  (search-forward text)
  (goto-char (match-beginning 0)))

(defun tell-changes ()
  "Tell the server what was changed in every buffer: eglot does so once nobody has typed for a while."
  (dolist (buffer (buffer-list))
    (with-current-buffer buffer (when (and buffer-file-name eglot--managed-mode) (eglot--signal-textDocument/didChange)))))

(defun findings ()
  (tell-changes)
  (flymake-start)
  (accept-process-output nil 0.05)
  (mapcar (lambda (each)
            (format "%d %s" (line-number-at-pos (flymake-diagnostic-beg each))
                    (car (split-string (flymake-diagnostic-text each) "\n"))))
          (flymake-diagnostics)))

(defun findings-once (is-so)
  "The findings, once IS-SO says yes to them and goes on to say so: after each of several changes they are told anew."
  (await (lambda ()
           (and (funcall is-so (findings))
                (let ((end (+ (float-time) 0.4)))
                  (while (< (float-time) end) (accept-process-output nil 0.05))
                  (funcall is-so (findings))))))
  (findings))

(defun some-of (all) (>= (length all) 1))
(defun none-of (all) (null all))

(defun line () (buffer-substring-no-properties (line-beginning-position) (line-end-position)))

(defun said-of-it ()
  "What eldoc is told of the place by the server."
  (let (text)
    (dolist (ask eldoc-documentation-functions)
      (when (functionp ask) (funcall ask (lambda (string &rest _) (when string (setq text (concat text string)))))))
    (await (lambda () text))
    (and text (substring-no-properties text))))

(visit "craft/wobbly-jug.fettle")
(step "mode" (list (symbol-name major-mode) comment-start))
(step "colours"
  (font-lock-ensure)
  (mapcar (lambda (text) (go text) (symbol-name (get-text-property (1- (match-end 0)) 'face)))
          '("# The newcomer" "craft" "  chemistry" "\"Wobbly")))
(step "capabilities" (seq-filter (lambda (key) (eglot--server-capable key))
                                 '(:referencesProvider :documentHighlightProvider :workspaceSymbolProvider
                                   :documentFormattingProvider :renameProvider)))
(step "findings" (findings-once (lambda (all) (> (length all) 10))))
(step "hover" (go "warn-at") (said-of-it))
(step "symbols" (flatten-tree (mapcar (lambda (kind) (mapcar #'car-safe (cdr kind))) (funcall imenu-create-index-function))))
(step "code action"
  (go "levle-blend")
  (let ((actions (seq-remove (lambda (each) (plist-get each :disabled))
                             (jsonrpc-request (eglot--current-server-or-lose) :textDocument/codeAction
                                              (list :textDocument (eglot--TextDocumentIdentifier)
                                                    :range (list :start (eglot--pos-to-lsp-position) :end (eglot--pos-to-lsp-position))
                                                    :context (list :diagnostics (vector) :only ["quickfix"]))))))
    (eglot--apply-workspace-edit (plist-get (car actions) :edit))
    (list (plist-get (car actions) :title) (line))))
(step "findings after it" (findings-once (lambda (all) (and all (not (seq-some (lambda (each) (string-match-p "levle" each)) all))))))

(visit "craft/tankard.fettle")
(step "findings of a craft that flies well" (findings-once #'none-of))
(step "completion"
  (go "  capacity          1100 mAh")
  (insert "  warn-a\n")
  (backward-char)
  (eglot--signal-textDocument/didChange)
  (let* ((capf (eglot-completion-at-point))
         (table (nth 2 capf))
         (offered (all-completions (buffer-substring-no-properties (nth 0 capf) (nth 1 capf)) table))
         (chosen (car (member "warn-at" offered))))
    (delete-region (nth 0 capf) (nth 1 capf))
    (insert chosen)
    (funcall (plist-get (nthcdr 3 capf) :exit-function) chosen 'finished)
    (let ((result (line)))
      (delete-region (line-beginning-position) (1+ (line-end-position)))
      (list (mapcar #'substring-no-properties offered) result (findings-once #'none-of)))))
(step "edits"
  (go "1100 mAh")
  (insert "🫖")
  (let ((faulty (findings-once #'some-of)))
    (delete-char -1)
    (list faulty (findings-once #'none-of))))
(step "definition"
  (go "KN from")
  (call-interactively #'xref-find-definitions)
  (let ((there (list (file-name-nondirectory buffer-file-name) (line))))
    (visit "craft/tankard.fettle")
    there))

(when (eglot--server-capable :referencesProvider)
  (step "references"
    (go "KN from")
    (mapcar (lambda (item)
              (let ((place (xref-item-location item)))
                (format "%s:%d" (file-name-nondirectory (xref-location-group place)) (xref-location-line place))))
            (xref-backend-references 'eglot (xref-backend-identifier-at-point 'eglot)))))
(when (eglot--server-capable :documentFormattingProvider)
  (step "format"
    (go "  cells             6")
    (delete-region (line-beginning-position) (line-end-position))
    (insert "    cells 6   ")
    (eglot-format-buffer)
    (go "  cells")
    (line)))
(when (eglot--server-capable :renameProvider)
  (step "rename"
    (go "KN from")
    (tell-changes)
    (eglot-rename "KW")
    (list (line)
          (seq-sort #'string< (delq nil (mapcar (lambda (buffer) (and (buffer-file-name buffer) (buffer-modified-p buffer)
                                                                     (file-name-nondirectory (buffer-file-name buffer))))
                                                (buffer-list))))
          (findings-once #'none-of)))
  (step "rename refused"
    (go "capacity")
    (condition-case err (progn (eglot-rename "fuel") nil) (error (error-message-string err)))))

(step "end" (eglot-shutdown (eglot-current-server)) t)

(let ((coding-system-for-write 'utf-8))
  (with-temp-file (getenv "FETTLE_SEEN")
    (insert (json-encode (mapcar (lambda (each) (cons (car each) (if (listp (cdr each)) (if (consp (car-safe (cdr each))) (cdr each) (vconcat (cdr each))) (cdr each)))) seen)))))
