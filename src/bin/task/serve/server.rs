//! A server for this machine alone, which stops when it is dropped.
//!
//! Every connection has a thread of its own. A browser opens connections ahead of need and leaves them idle, and a pool
//! of threads may then keep a real request waiting behind an idle connection.

use std::net::{Ipv4Addr, TcpListener, TcpStream};
use std::path::Path;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::thread::{self, JoinHandle};

use super::answer::Folder;
use super::conversation::converse;
use crate::failure::{Failure, Outcome};

pub struct Server {
    port: u16,
    files: Arc<Folder>,
    stopping: Arc<AtomicBool>,
    welcoming: Option<JoinHandle<()>>,
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
        let unusable = |cause| Failure::new(format!("Port {port} cannot be used: {cause}."));
        let listener = TcpListener::bind((Ipv4Addr::LOCALHOST, port)).map_err(unusable)?;
        let port = listener.local_addr().map_err(unusable)?.port();
        let stopping = Arc::new(AtomicBool::new(false));
        let stop = Arc::clone(&stopping);
        let files = Arc::new(files);
        let welcomed = Arc::clone(&files);
        let welcoming = thread::spawn(move || welcome(&listener, &welcomed, &stop));
        Ok(Self {
            port,
            files,
            stopping,
            welcoming: Some(welcoming),
        })
    }

    /// Compresses its files now, so that no visit waits for it.
    pub fn pack(&self) {
        self.files.pack();
    }

    pub fn address(&self) -> String {
        format!("http://127.0.0.1:{}/", self.port)
    }
}

impl Drop for Server {
    fn drop(&mut self) {
        self.stopping.store(true, Ordering::Release);
        // A last connection ends the wait for one.
        drop(TcpStream::connect((Ipv4Addr::LOCALHOST, self.port)));
        if let Some(thread) = self.welcoming.take() {
            drop(thread.join());
        }
    }
}

fn welcome(listener: &TcpListener, files: &Arc<Folder>, stopping: &AtomicBool) {
    for stream in listener.incoming() {
        if stopping.load(Ordering::Acquire) {
            return;
        }
        if let Ok(stream) = stream {
            let files = Arc::clone(files);
            // A browser that goes away in the middle needs no answer.
            thread::spawn(move || drop(converse(stream, &files)));
        }
    }
}

#[cfg(test)]
mod tests {
    use std::fs;
    use std::io::{Read, Write};
    use std::net::TcpStream;
    use std::path::PathBuf;
    use std::time::{Duration, Instant};

    use super::Server;

    const PAGE: &str = r#"<meta http-equiv="Content-Security-Policy" content="default-src 'none'"><h1>Morning water</h1>"#;

    /// A folder of its own, with a page, a program and a secret beside them.
    fn folder(name: &str) -> PathBuf {
        let above = std::env::temp_dir().join(format!("first-truss-{}-{name}", std::process::id()));
        let inside = above.join("dist");
        fs::create_dir_all(inside.join("icons")).unwrap();
        fs::write(above.join("secret.txt"), "secret").unwrap();
        fs::write(inside.join(".hidden"), "secret").unwrap();
        fs::write(inside.join("index.html"), PAGE).unwrap();
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
            assert!(answer.contains("cross-origin-opener-policy: same-origin\r\n"));
            assert!(answer.contains("cross-origin-resource-policy: same-origin\r\n"));
            assert!(answer.contains("geolocation=()"));
            assert!(answer.contains("content-security-policy: default-src 'none'; frame-ancestors 'none'\r\n"));
            assert!(answer.ends_with("<h1>morning water</h1>"));
        }
        let answer = ask(&server, "GET", "/icons/plant.svg", "");
        assert!(answer.contains("content-type: image/svg+xml\r\n"), "{answer}");
    }

    #[test]
    fn brotli_is_sent_when_it_is_accepted() {
        let server = Server::start_anywhere(&folder("brotli")).unwrap();
        server.pack();
        assert!(server.files.is_packed("/program.wasm") && server.files.is_packed("/icons/plant.svg"));
        let packed = ask(&server, "GET", "/program.wasm", "Accept-Encoding: gzip, br\r\n");
        assert!(packed.contains("content-encoding: br\r\n"));
        assert!(packed.contains("content-type: application/wasm\r\n"));
        let (_, body) = packed.split_once("\r\n\r\n").unwrap();
        assert!(body.len() < 1000);
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
    fn idle_connections_keep_no_request_waiting() {
        let server = Server::start_anywhere(&folder("idle")).unwrap();
        let idle: Vec<TcpStream> = (0..32).map(|_| TcpStream::connect(("127.0.0.1", server.port)).unwrap()).collect();
        let start = Instant::now();
        let answer = ask(&server, "GET", "/", "");
        assert!(answer.starts_with("http/1.1 200"), "{answer}");
        assert!(start.elapsed() < Duration::from_secs(2));
        drop(idle);
    }

    #[test]
    fn one_connection_serves_request_after_request() {
        let server = Server::start_anywhere(&folder("after")).unwrap();
        let mut stream = TcpStream::connect(("127.0.0.1", server.port)).unwrap();
        let both = "GET / HTTP/1.1\r\nHost: x\r\n\r\nGET /missing HTTP/1.1\r\nConnection: close\r\n\r\n";
        // In small pieces, as a slow line brings them.
        for piece in both.as_bytes().chunks(7) {
            stream.write_all(piece).unwrap();
            stream.flush().unwrap();
        }
        let mut text = String::new();
        stream.read_to_string(&mut text).unwrap();
        assert!(text.starts_with("HTTP/1.1 200 OK\r\n"), "{text}");
        assert!(text.contains("</h1>HTTP/1.1 404 Not Found\r\n"), "{text}");
    }

    #[test]
    fn what_is_no_request_is_refused() {
        let server = Server::start_anywhere(&folder("refused")).unwrap();
        let refused = |bytes: &[u8]| {
            let mut stream = TcpStream::connect(("127.0.0.1", server.port)).unwrap();
            // The server may have refused before all is written.
            drop(stream.write_all(bytes));
            let mut text = String::new();
            drop(stream.read_to_string(&mut text));
            text
        };
        assert!(refused(b"\x00\xff\r\n\r\n").starts_with("HTTP/1.1 400 Bad Request\r\n"));
        let endless = [b"GET / HTTP/1.1\r\nX: ".to_vec(), vec![b'x'; 100_000]].concat();
        assert!(!refused(&endless).contains("200 OK"));
        let later = ask(&server, "GET", "/", "");
        assert!(later.starts_with("http/1.1 200"), "{later}");
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
