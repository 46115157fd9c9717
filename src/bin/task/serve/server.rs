//! A server for this machine alone, which stops when it is dropped.

use std::io::Cursor;
use std::path::Path;
use std::sync::Arc;
use std::thread::{self, JoinHandle};

use tiny_http::{Header, Method, Request, Response};

use super::answer::{Folder, accepts_brotli};
use crate::failure::{Failure, Outcome};

/// A browser asks for a handful of files at a time.
const THREADS: usize = 4;

pub struct Server {
    port: u16,
    http: Arc<tiny_http::Server>,
    threads: Vec<JoinHandle<()>>,
}

impl Server {
    /// Serves `folder` at a port that the system chooses.
    ///
    /// # Errors
    ///
    /// When there is no such folder.
    pub fn start_anywhere(folder: &Path) -> Outcome<Self> {
        Self::start(folder, 0)
    }

    /// Serves `folder` at `port`.
    ///
    /// # Errors
    ///
    /// When there is no such folder or the port is taken.
    pub fn start(folder: &Path, port: u16) -> Outcome<Self> {
        let files = Folder::new(folder).map_err(|cause| Failure::at("serve", folder, cause))?;
        let files = Arc::new(files);
        let http =
            tiny_http::Server::http(("127.0.0.1", port)).map_err(|cause| Failure::new(format!("Port {port} cannot be used: {cause}.")))?;
        let http = Arc::new(http);
        let port = http.server_addr().to_ip().map_or(port, |address| address.port());
        let threads = (0..THREADS)
            .map(|_| {
                let (http, files) = (Arc::clone(&http), Arc::clone(&files));
                thread::spawn(move || {
                    while let Ok(request) = http.recv() {
                        // A browser that has gone away needs no answer.
                        drop(respond(request, &files));
                    }
                })
            })
            .collect();
        Ok(Self { port, http, threads })
    }

    pub fn address(&self) -> String {
        format!("http://127.0.0.1:{}/", self.port)
    }
}

impl Drop for Server {
    fn drop(&mut self) {
        // Each call ends one thread's wait for a request.
        for _ in &self.threads {
            self.http.unblock();
        }
        for thread in self.threads.drain(..) {
            drop(thread.join());
        }
    }
}

fn respond(request: Request, files: &Folder) -> std::io::Result<()> {
    if !matches!(request.method(), Method::Get | Method::Head) {
        return request.respond(plain(405, "This address can only be read.\n"));
    }
    let accepts_brotli = request
        .headers()
        .iter()
        .any(|header| header.field.equiv("Accept-Encoding") && accepts_brotli(header.value.as_str()));
    let Some(answer) = files.answer(request.url(), accepts_brotli) else {
        return request.respond(plain(404, "There is nothing here.\n"));
    };
    let mut response = Response::from_data(answer.body.to_vec());
    response.add_header(header("Content-Type", answer.media_type.name));
    if answer.brotli {
        response.add_header(header("Content-Encoding", "br"));
    }
    if answer.media_type.compressible {
        response.add_header(header("Vary", "Accept-Encoding"));
    }
    request.respond(finished(response))
}

fn plain(status: u16, text: &str) -> Response<Cursor<Vec<u8>>> {
    let mut response = Response::from_string(text).with_status_code(status);
    response.add_header(header("Content-Type", "text/plain; charset=utf-8"));
    finished(response)
}

/// The headers of every answer, sent in one piece with its length.
fn finished(response: Response<Cursor<Vec<u8>>>) -> Response<Cursor<Vec<u8>>> {
    response
        // Of every file: a built file may keep its name while its bytes change.
        .with_header(header("Cache-Control", "no-cache"))
        .with_header(header("X-Content-Type-Options", "nosniff"))
        .with_header(header("Referrer-Policy", "no-referrer"))
        .with_chunked_threshold(usize::MAX)
}

fn header(name: &'static str, value: &'static str) -> Header {
    Header::from_bytes(name, value).expect("a header of plain ASCII is well formed")
}

#[cfg(test)]
mod tests {
    use std::fs;
    use std::io::{Read, Write};
    use std::net::TcpStream;
    use std::path::PathBuf;

    use super::Server;

    /// A folder of its own, with a page, a program and a secret beside them.
    fn folder(name: &str) -> PathBuf {
        let above = std::env::temp_dir().join(format!("first-truss-{}-{name}", std::process::id()));
        let inside = above.join("dist");
        fs::create_dir_all(inside.join("icons")).unwrap();
        fs::write(above.join("secret.txt"), "secret").unwrap();
        fs::write(inside.join(".hidden"), "secret").unwrap();
        fs::write(inside.join("index.html"), "<h1>Morning water</h1>").unwrap();
        fs::write(inside.join("program.wasm"), vec![7; 100_000]).unwrap();
        fs::write(inside.join("icons/plant.svg"), "<svg/>").unwrap();
        inside
    }

    /// The whole answer to a request, head and body; bytes that are not text are replaced.
    fn ask(server: &Server, method: &str, target: &str, more: &str) -> String {
        let mut stream = TcpStream::connect(("127.0.0.1", server.port)).unwrap();
        write!(stream, "{method} {target} HTTP/1.1\r\nHost: x\r\nConnection: close\r\n{more}\r\n").unwrap();
        let mut bytes = Vec::new();
        stream.read_to_end(&mut bytes).unwrap();
        String::from_utf8_lossy(&bytes).to_lowercase()
    }

    #[test]
    fn the_page_is_sent_with_its_headers() {
        let server = Server::start_anywhere(&folder("page")).unwrap();
        for target in ["/", "/index.html", "/index.html?today=1", "/%69ndex.html"] {
            let answer = ask(&server, "GET", target, "");
            assert!(answer.starts_with("http/1.1 200"), "{answer}");
            assert!(answer.contains("content-type: text/html; charset=utf-8\r\n"));
            assert!(answer.contains("cache-control: no-cache\r\n"));
            assert!(answer.contains("x-content-type-options: nosniff\r\n"));
            assert!(answer.contains("referrer-policy: no-referrer\r\n"));
            assert!(answer.ends_with("<h1>morning water</h1>"));
        }
        let answer = ask(&server, "GET", "/icons/plant.svg", "");
        assert!(answer.contains("content-type: image/svg+xml\r\n"), "{answer}");
    }

    #[test]
    fn brotli_is_sent_when_it_is_accepted() {
        let server = Server::start_anywhere(&folder("brotli")).unwrap();
        let packed = ask(&server, "GET", "/program.wasm", "Accept-Encoding: gzip, br\r\n");
        assert!(packed.contains("content-encoding: br\r\n"));
        assert!(packed.contains("content-type: application/wasm\r\n"));
        assert!(packed.len() < 1000);
        let whole = ask(&server, "GET", "/program.wasm", "");
        assert!(!whole.contains("content-encoding"));
        assert!(whole.contains("content-length: 100000\r\n"));
        assert!(whole.len() > 100_000);
    }

    #[test]
    fn nothing_outside_the_folder_is_sent() {
        let server = Server::start_anywhere(&folder("outside")).unwrap();
        for target in [
            "/../secret.txt",
            "/icons/../../secret.txt",
            "/%2e%2e/secret.txt",
            "/..%2fsecret.txt",
            "/..%5csecret.txt",
            "//etc/passwd",
            "/.hidden",
            "/icons",
            "/icons/",
            "/missing.html",
            "/%00",
        ] {
            let answer = ask(&server, "GET", target, "");
            assert!(answer.starts_with("http/1.1 404"), "{target}: {answer}");
            assert!(!answer.contains("secret"), "{target}: {answer}");
        }
    }

    #[cfg(unix)]
    #[test]
    fn a_link_does_not_lead_outside() {
        let inside = folder("link");
        drop(std::os::unix::fs::symlink("../secret.txt", inside.join("way-out.txt")));
        let server = Server::start_anywhere(&inside).unwrap();
        let answer = ask(&server, "GET", "/way-out.txt", "");
        assert!(answer.starts_with("http/1.1 404"), "{answer}");
    }

    #[test]
    fn nothing_can_be_written() {
        let server = Server::start_anywhere(&folder("write")).unwrap();
        let answer = ask(&server, "POST", "/index.html", "Content-Length: 0\r\n");
        assert!(answer.starts_with("http/1.1 405"), "{answer}");
        let answer = ask(&server, "HEAD", "/index.html", "");
        assert!(answer.starts_with("http/1.1 200"), "{answer}");
        assert!(!answer.contains("<h1>"));
    }
}
