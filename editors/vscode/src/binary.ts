// Where the program is.

import { access, constants } from "node:fs/promises";
import { homedir } from "node:os";
import { delimiter, join } from "node:path";
import * as vscode from "vscode";

const NAME = process.platform === "win32" ? "washline.exe" : "washline";

/** The path of the program: what the settings say, else the `PATH`, else cargo's folder. */
export async function findBinary(): Promise<string | undefined> {
  const said = vscode.workspace.getConfiguration("washline").get<string>("path", "").trim();
  if (said !== "") {
    const path = said.replace(/^~(?=\/|\\)/, homedir());
    return (await isProgram(path)) ? path : undefined;
  }
  const folders = (process.env["PATH"] ?? "").split(delimiter).filter((folder) => folder !== "");
  folders.push(join(homedir(), ".cargo", "bin"));
  for (const folder of folders) {
    const path = join(folder, NAME);
    if (await isProgram(path)) {
      return path;
    }
  }
  return undefined;
}

async function isProgram(path: string): Promise<boolean> {
  try {
    await access(path, constants.X_OK);
    return true;
  } catch {
    return false;
  }
}

/** Says that the program is missing, and what to do. */
export async function tellMissing(): Promise<void> {
  const install = "How to install it";
  const settings = "Set its path";
  const chosen = await vscode.window.showErrorMessage(
    "The washline program was not found. Install it, or say where it is.",
    install,
    settings,
  );
  if (chosen === install) {
    await vscode.commands.executeCommand("workbench.action.openWalkthrough", "washline.washline#start");
  } else if (chosen === settings) {
    await vscode.commands.executeCommand("workbench.action.openSettings", "washline.path");
  }
}
