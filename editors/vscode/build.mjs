// Bundles the extension into one file and copies the grammar beside it.
import { copyFile, mkdir } from "node:fs/promises";
import { build } from "esbuild";

await mkdir("dist", { recursive: true });
for (const file of ["pour.tmLanguage.json", "language-configuration.json"]) {
  await copyFile(`../textmate/${file}`, `dist/${file}`);
}
await build({
  entryPoints: ["src/extension.ts"],
  outfile: "dist/extension.js",
  bundle: true,
  platform: "node",
  format: "cjs",
  target: "node18",
  external: ["vscode"],
  minify: true,
});
