//! One connection: requests are read and answered in turn until the browser has no more.

use std::io::{self, Read, Write};
use std::net::TcpStream;
use std::time::Duration;

use super::answer::{Folder, accepts_brotli};
use super::headers::{NO_FRAME, POLICY, always};

/// How long a connection may stay silent.
const PATIENCE: Duration = Duration::from_mins(1);
/// More than any browser sends before a request's body.
const LONGEST_HEAD: usize = 16 * 1024;
const MOST_HEADERS: usize = 64;

/// What a request asks for, as far as files can answer it.
struct Request {
    method: String,
    target: String,
    accepts_brotli: bool,
    /// Whether the connection ends with the answer.
    last: bool,
}

/// What came in.
enum Received {
    Request(Request),
    Nonsense,
    Nothing,
}

/// # Errors
///
/// When the connection breaks or stays silent for too long.
pub fn converse(mut stream: TcpStream, files: &Folder) -> io::Result<()> {
    stream.set_read_timeout(Some(PATIENCE))?;
    stream.set_nodelay(true)?;
    let mut unread = Vec::new();
    loop {
        match receive(&mut stream, &mut unread)? {
            Received::Nothing => return Ok(()),
            Received::Nonsense => {
                return send(&mut stream, "400 Bad Request", PLAIN, b"This is no request.\n", true);
            }
            Received::Request(request) => {
                respond(&mut stream, &request, files)?;
                if request.last {
                    return Ok(());
                }
            }
        }
    }
}

/// Reads up to the end of the next request's head. What came after it stays in `unread`.
fn receive(stream: &mut TcpStream, unread: &mut Vec<u8>) -> io::Result<Received> {
    loop {
        let mut headers = [httparse::EMPTY_HEADER; MOST_HEADERS];
        let mut head = httparse::Request::new(&mut headers);
        match head.parse(unread) {
            Ok(httparse::Status::Complete(length)) => {
                let request = understood(&head);
                unread.drain(..length);
                return Ok(Received::Request(request));
            }
            Ok(httparse::Status::Partial) if unread.len() < LONGEST_HEAD => {}
            Ok(httparse::Status::Partial) | Err(_) => return Ok(Received::Nonsense),
        }
        let mut piece = [0; 4096];
        let length = stream.read(&mut piece)?;
        if length == 0 {
            return Ok(Received::Nothing);
        }
        unread.extend(piece.iter().take(length));
    }
}

fn understood(head: &httparse::Request<'_, '_>) -> Request {
    let named = |name: &'static str| {
        head.headers
            .iter()
            .filter(move |header| header.name.eq_ignore_ascii_case(name))
            .filter_map(|header| std::str::from_utf8(header.value).ok())
    };
    let closes = named("Connection").any(|value| value.eq_ignore_ascii_case("close"));
    // A body is not read, so what follows it cannot be told from it.
    let has_body = named("Transfer-Encoding").next().is_some() || named("Content-Length").any(|value| value != "0");
    Request {
        method: head.method.unwrap_or_default().to_string(),
        target: head.path.unwrap_or_default().to_string(),
        accepts_brotli: named("Accept-Encoding").any(accepts_brotli),
        last: closes || has_body || head.version != Some(1),
    }
}

const PLAIN: &[(&str, &str)] = &[("Content-Type", "text/plain; charset=utf-8"), (POLICY, NO_FRAME)];

fn respond(stream: &mut TcpStream, request: &Request, files: &Folder) -> io::Result<()> {
    let with_body = match request.method.as_str() {
        "GET" => true,
        "HEAD" => false,
        _ => {
            let told = b"This address can only be read.\n";
            return send(stream, "405 Method Not Allowed", PLAIN, told, true);
        }
    };
    let Some(answer) = files.answer(&request.target, request.accepts_brotli) else {
        return send(stream, "404 Not Found", PLAIN, b"There is nothing here.\n", with_body);
    };
    let mut headers = vec![("Content-Type", answer.media_type.name), (POLICY, &answer.policy)];
    if answer.brotli {
        headers.push(("Content-Encoding", "br"));
    }
    if answer.media_type.compressible {
        headers.push(("Vary", "Accept-Encoding"));
    }
    send(stream, "200 OK", &headers, &answer.body, with_body)
}

fn send(stream: &mut TcpStream, status: &str, headers: &[(&str, &str)], body: &[u8], with_body: bool) -> io::Result<()> {
    let length = body.len().to_string();
    let length = [("Content-Length", length.as_str())];
    let mut bytes = format!("HTTP/1.1 {status}\r\n").into_bytes();
    for (name, value) in headers.iter().chain(&length).copied().chain(always()) {
        write!(bytes, "{name}: {value}\r\n")?;
    }
    bytes.extend(b"\r\n");
    if with_body {
        bytes.extend(body);
    }
    stream.write_all(&bytes)
}
