// A static host that a test can stop, give another build to, and break. It serves from memory of nothing: each request
// reads the file.
import { readFile } from "node:fs/promises";
import { createServer } from "node:http";
import { extname, join } from "node:path";

const TYPES = {
  ".html": "text/html; charset=utf-8",
  ".js": "text/javascript; charset=utf-8",
  ".css": "text/css; charset=utf-8",
  ".txt": "text/plain; charset=utf-8",
  ".wasm": "application/wasm",
  ".svg": "image/svg+xml",
  ".png": "image/png",
  ".woff2": "font/woff2",
  ".webmanifest": "application/manifest+json",
};

export class Host {
  /** Every path asked for, in order. */
  requests = [];
  /** Paths that are answered with 404, redirects from one path to another, and a path whose answer breaks off half way. */
  missing = new Set();
  redirects = new Map();
  breaksOff = null;
  /** The folder that is served under each path, which ends with "/". */
  folders;
  #server;
  #port = 0;

  constructor(folders) {
    this.folders = new Map(Object.entries(folders));
  }

  async start() {
    this.#server = createServer((request, response) => this.#answer(request, response));
    await new Promise((resolve, reject) => {
      this.#server.once("error", reject);
      this.#server.listen(this.#port, "127.0.0.1", resolve);
    });
    this.#port = this.#server.address().port;
    return this;
  }

  /** From here on no connection is answered, nor any open one kept. */
  async stop() {
    if (!this.#server) return;
    const closed = new Promise((resolve) => this.#server.close(resolve));
    this.#server.closeAllConnections();
    this.#server = null;
    await closed;
  }

  address(path = "/") {
    return `http://127.0.0.1:${this.#port}${path}`;
  }

  async #answer(request, response) {
    const { pathname } = new URL(request.url, "http://host");
    this.requests.push(pathname);
    if (this.redirects.has(pathname)) {
      response.writeHead(302, { Location: this.redirects.get(pathname) }).end();
      return;
    }
    const file = this.#file(pathname);
    const bytes = file && !this.missing.has(pathname) && (await readFile(file).catch(() => null));
    if (!bytes) {
      response.writeHead(404, { "Content-Type": "text/plain" }).end("There is nothing here.\n");
      return;
    }
    response.writeHead(200, {
      "Content-Type": TYPES[extname(file)] ?? "application/octet-stream",
      "Content-Length": bytes.length,
      "Cache-Control": "no-cache",
    });
    if (this.breaksOff === pathname) {
      response.write(bytes.subarray(0, bytes.length / 2), () => this.stop());
    } else {
      response.end(bytes);
    }
  }

  /** The most special folder wins. */
  #file(pathname) {
    const under = [...this.folders.keys()].filter((path) => pathname.startsWith(path)).sort((one, other) => other.length - one.length)[0];
    if (under === undefined || pathname.includes("..")) return null;
    const name = pathname.slice(under.length);
    return join(this.folders.get(under), name === "" || name.endsWith("/") ? `${name}index.html` : name);
  }
}
