//! Serves the release page as a good static host does.

mod answer;
mod conversation;
mod headers;
mod media_type;
mod server;

pub use answer::Folder;
pub use server::Server;

use std::path::Path;
use std::thread;

use crate::build;
use crate::failure::Outcome;
use crate::options::Options;
use crate::project::Project;
use crate::tools::Tools;

const USUAL_PORT: u16 = 8410;

pub fn serve(project: &Project, mut options: Options) -> Outcome<()> {
    let port = options.value("--port")?.unwrap_or(USUAL_PORT);
    options.finish()?;
    build::release(project, &Tools::install(project)?)?;
    let server = start(&project.dist(), port)?;
    server.pack();
    println!("\nFirst Truss is at {}", server.address());
    println!("Stop it with Ctrl+C.");
    loop {
        thread::park();
    }
}

/// Starts at `port`, or at a free one when that is taken.
fn start(folder: &Path, port: u16) -> Outcome<Server> {
    Server::start(folder, port).or_else(|taken| {
        println!("{taken} A free port is taken instead.");
        Server::start_anywhere(folder)
    })
}

#[cfg(test)]
mod tests {
    use super::{Server, start};

    fn port_of(server: &Server) -> u16 {
        let address = server.address();
        let port = address.trim_end_matches('/').rsplit(':').next().unwrap();
        port.parse().unwrap()
    }

    #[test]
    fn a_taken_port_gives_way_to_a_free_one() {
        let folder = std::env::temp_dir();
        let first = Server::start_anywhere(&folder).unwrap();
        let second = start(&folder, port_of(&first)).unwrap();
        assert_ne!(port_of(&first), port_of(&second));
    }
}
