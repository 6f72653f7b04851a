// The check of a whole book as a task, whose findings land in the problems panel.

import * as vscode from "vscode";
import { findBinary, tellMissing } from "./binary";

/** The task that checks the first workspace folder. */
export async function bookTask(): Promise<vscode.Task | undefined> {
  const command = await findBinary();
  const folder = vscode.workspace.workspaceFolders?.[0];
  if (command === undefined || folder === undefined) {
    return undefined;
  }
  const run = new vscode.ProcessExecution(command, ["check", "--output", "short"], {
    cwd: folder.uri.fsPath,
  });
  const task = new vscode.Task({ type: "washline" }, folder, "check", "washline", run, "$washline");
  task.presentationOptions = { reveal: vscode.TaskRevealKind.Never, clear: true };
  return task;
}

/** Checks the whole book and shows what was found. */
export async function checkBook(): Promise<void> {
  const task = await bookTask();
  if (task !== undefined) {
    await vscode.tasks.executeTask(task);
    await vscode.commands.executeCommand("workbench.actions.view.problems");
  } else if ((await findBinary()) === undefined) {
    await tellMissing();
  } else {
    await vscode.window.showInformationMessage("Open the folder of your spec book first.");
  }
}
