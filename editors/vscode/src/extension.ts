// Starts the language server and puts the commands in their places.

import * as vscode from "vscode";
import { LanguageClient, State } from "vscode-languageclient/node";
import { findBinary, tellMissing } from "./binary";
import { FiguresView } from "./figures";
import { bookTasks, checkBook } from "./tasks";

let client: LanguageClient | undefined;

export async function activate(context: vscode.ExtensionContext): Promise<void> {
  const status = vscode.window.createStatusBarItem("washline", vscode.StatusBarAlignment.Right, 90);
  status.name = "Washline";
  status.command = "washline.output";
  const output = vscode.window.createOutputChannel("Washline");
  const figures = new FiguresView();
  context.subscriptions.push(
    status,
    output,
    figures,
    vscode.commands.registerCommand("washline.new", newBook),
    vscode.commands.registerCommand("washline.figures", () => figures.show()),
    vscode.commands.registerCommand("washline.check", checkBook),
    vscode.commands.registerCommand("washline.output", () => output.show(true)),
    vscode.commands.registerCommand("washline.restart", () => start(output, status)),
    vscode.tasks.registerTaskProvider("washline", {
      provideTasks: bookTasks,
      resolveTask: () => undefined,
    }),
    vscode.window.onDidChangeActiveTextEditor((editor) => showStatus(status, editor)),
    vscode.workspace.onDidChangeConfiguration(async (change) => {
      if (change.affectsConfiguration("washline.path")) {
        await start(output, status);
      }
    }),
  );
  await start(output, status);
}

async function newBook(): Promise<void> {
  await vscode.window.showTextDocument(await vscode.workspace.openTextDocument({ language: "pour" }));
}

export async function deactivate(): Promise<void> {
  await client?.stop();
}

async function start(output: vscode.OutputChannel, status: vscode.StatusBarItem): Promise<void> {
  await client?.stop().catch(() => undefined);
  client = undefined;
  const command = await findBinary();
  if (command === undefined) {
    status.text = "$(warning) washline";
    status.tooltip = "The washline program was not found";
    status.show();
    await tellMissing();
    return;
  }
  const run = { command, args: ["lsp"] };
  const started = new LanguageClient("washline", "Washline", { run, debug: run }, {
    documentSelector: [{ language: "pour" }, { language: "toml", pattern: "**/washline.toml" }],
    outputChannel: output,
    initializationOptions: vscode.workspace.getConfiguration("washline"),
  });
  client = started;
  started.onDidChangeState(({ newState }) => {
    status.text = newState === State.Running ? "$(check) washline" : "$(sync~spin) washline";
    status.tooltip = newState === State.Running ? `Washline: ${command}` : "Washline is starting";
    showStatus(status, vscode.window.activeTextEditor);
  });
  try {
    await started.start();
  } catch (error) {
    status.text = "$(error) washline";
    status.tooltip = `The language server did not start: ${String(error)}`;
    status.show();
  }
}

function showStatus(status: vscode.StatusBarItem, editor: vscode.TextEditor | undefined): void {
  if (editor?.document.languageId === "pour") {
    status.show();
  } else {
    status.hide();
  }
}
