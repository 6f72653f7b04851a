// The figures of the book at hand, beside its text, computed from what is typed.

import { spawn } from "node:child_process";
import { dirname } from "node:path";
import * as vscode from "vscode";
import { findBinary, tellMissing } from "./binary";
import { type Answer, page } from "./page";

/** A panel beside the text that follows the active book. */
export class FiguresView implements vscode.Disposable {
  private panel: vscode.WebviewPanel | undefined;
  private asked = 0;
  private readonly listeners: vscode.Disposable[] = [];

  constructor() {
    const about = (document: vscode.TextDocument | undefined): void => {
      if (document?.languageId === "pour" && this.panel !== undefined) {
        void this.draw(document);
      }
    };
    this.listeners.push(
      vscode.workspace.onDidChangeTextDocument((change) => {
        if (change.document === vscode.window.activeTextEditor?.document) {
          about(change.document);
        }
      }),
      vscode.window.onDidChangeActiveTextEditor((editor) => about(editor?.document)),
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
        { enableScripts: false, localResourceRoots: [] },
      );
      this.panel.onDidDispose(() => (this.panel = undefined));
    }
    await this.draw(document);
  }

  dispose(): void {
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
      this.panel.webview.html = page(answer);
    }
  }
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
