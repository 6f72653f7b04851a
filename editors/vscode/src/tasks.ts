// The check of a whole book: in the problems panel, where the server tells it of every file, and as
// a task, which prints it.

import * as vscode from "vscode";
import { findBinary, tellMissing } from "./binary";

/** The tasks that check the workspace's folders. What they print stands in the problems panel already. */
export async function bookTasks(): Promise<vscode.Task[]> {
  const command = await findBinary();
  if (command === undefined) {
    return [];
  }
  return (vscode.workspace.workspaceFolders ?? []).map((folder) => {
    const cwd = folder.uri.fsPath;
    const run = new vscode.ProcessExecution(command, ["check", "--output", "short"], { cwd });
    const task = new vscode.Task({ type: "washline" }, folder, "check", "washline", run, []);
    task.presentationOptions = { reveal: vscode.TaskRevealKind.Always, clear: true };
    return task;
  });
}

/** Shows what is wrong in all books. */
export async function checkBook(): Promise<void> {
  if ((await findBinary()) === undefined) {
    await tellMissing();
  } else if (vscode.workspace.workspaceFolders === undefined) {
    await vscode.window.showInformationMessage("Open the folder of your spec book first.");
  } else {
    await vscode.commands.executeCommand("workbench.actions.view.problems");
  }
}
