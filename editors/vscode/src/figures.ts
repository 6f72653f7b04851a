// The figures of the book at hand, beside its text, computed from what is typed.

import { spawn } from "node:child_process";
import { randomBytes } from "node:crypto";
import { dirname } from "node:path";
import * as vscode from "vscode";
import { findBinary, tellMissing } from "./binary";
import { type Answer, cards, shell } from "./page";

/** How long nobody types before the figures are computed anew, in milliseconds. */
const PAUSE = 120;

/** A panel beside the text that follows the active book. */
export class FiguresView implements vscode.Disposable {
  private panel: vscode.WebviewPanel | undefined;
  private asked = 0;
  private pause: NodeJS.Timeout | undefined;
  private readonly listeners: vscode.Disposable[] = [];

  constructor() {
    const about = (document: vscode.TextDocument | undefined, after: number): void => {
      if (document?.languageId === "pour" && this.panel !== undefined) {
        clearTimeout(this.pause);
        this.pause = setTimeout(() => void this.draw(document), after);
      }
    };
    this.listeners.push(
      vscode.workspace.onDidChangeTextDocument(({ document }) => {
        if (document === vscode.window.activeTextEditor?.document) {
          about(document, PAUSE);
        }
      }),
      vscode.window.onDidChangeActiveTextEditor((editor) => about(editor?.document, 0)),
      vscode.window.onDidChangeTextEditorSelection(({ textEditor }) => {
        if (textEditor.document.languageId === "pour") {
          void this.panel?.webview.postMessage({ line: lineOf(textEditor) });
        }
      }),
    );
  }

  async show(): Promise<void> {
    const document = vscode.window.activeTextEditor?.document;
    if (document?.languageId !== "pour") {
      await vscode.window.showInformationMessage("Open a .pour file first.");
      return;
    }
    if (this.panel === undefined) {
      this.panel = vscode.window.createWebviewPanel(
        "washline.figures",
        "Figures",
        { viewColumn: vscode.ViewColumn.Beside, preserveFocus: true },
        { enableScripts: true, localResourceRoots: [], retainContextWhenHidden: true },
      );
      this.panel.onDidDispose(() => (this.panel = undefined));
      this.panel.webview.html = shell(randomBytes(16).toString("hex"));
    }
    await this.draw(document);
  }

  dispose(): void {
    clearTimeout(this.pause);
    this.panel?.dispose();
    for (const listener of this.listeners) {
      listener.dispose();
    }
  }

  /** Draws the figures of what is typed now; an answer that comes late is dropped. */
  private async draw(document: vscode.TextDocument): Promise<void> {
    const mine = ++this.asked;
    const command = await findBinary();
    if (command === undefined) {
      await tellMissing();
      return;
    }
    const answer = await figures(command, document);
    if (mine === this.asked && this.panel !== undefined) {
      this.panel.title = `Figures: ${document.fileName.split(/[\\/]/).pop() ?? ""}`;
      const editor = vscode.window.visibleTextEditors.find((editor) => editor.document === document);
      void this.panel.webview.postMessage({ cards: cards(answer), line: editor && lineOf(editor) });
    }
  }
}

/** The line of the cursor, from 1. */
function lineOf(editor: vscode.TextEditor): number {
  return editor.selection.active.line + 1;
}

/** What the program says of a text, which stands in for its file. */
function figures(command: string, document: vscode.TextDocument): Promise<Answer> {
  const onDisk = document.uri.scheme === "file";
  const name = onDisk ? ["--name", document.fileName] : [];
  const cwd = onDisk ? dirname(document.fileName) : undefined;
  return new Promise((resolve) => {
    const child = spawn(command, ["figures", "--output", "json", ...name, "-"], { cwd });
    let out = "";
    let err = "";
    child.stdout.setEncoding("utf8").on("data", (text: string) => (out += text));
    child.stderr.setEncoding("utf8").on("data", (text: string) => (err += text));
    child.on("error", (error) => resolve({ problem: String(error) }));
    child.on("close", () => {
      try {
        resolve(JSON.parse(out) as Answer);
      } catch {
        resolve({ problem: err === "" ? "The figures could not be read." : err });
      }
    });
    child.stdin.on("error", () => undefined);
    child.stdin.end(document.getText());
  });
}
