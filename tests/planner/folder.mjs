// A web server that knows nothing but a folder of files.
import { readFile } from "node:fs/promises";
import { createServer } from "node:http";
import { extname, join, normalize } from "node:path";

const TYPES = {
  ".html": "text/html; charset=utf-8",
  ".js": "text/javascript; charset=utf-8",
  ".css": "text/css; charset=utf-8",
  ".svg": "image/svg+xml",
  ".png": "image/png",
  ".wasm": "application/wasm",
  ".webmanifest": "application/manifest+json",
};

/** Serves a folder below a path, as club sites do, without one of its files; gives the address and what stops it. */
export async function serveFolder(folder, missing) {
  const server = createServer(async ({ url }, reply) => {
    const path = normalize(decodeURIComponent(new URL(url, "http://x").pathname)).replace(/^\/club/, "");
    try {
      const name = path === "/" ? "index.html" : path;
      if (name === `/${missing}`) throw new Error("it is missing");
      const body = await readFile(join(folder, name));
      reply.writeHead(200, { "Content-Type": TYPES[extname(name)] ?? "application/octet-stream" });
      reply.end(body);
    } catch {
      reply.writeHead(404);
      reply.end();
    }
  });
  await new Promise((resolve) => server.listen(0, "127.0.0.1", resolve));
  const stop = () => {
    server.closeAllConnections();
    server.close();
  };
  return { url: `http://127.0.0.1:${server.address().port}/club/`, stop };
}
