//! Mounts the page in a browser; anywhere else says how to run it.

#[cfg(target_arch = "wasm32")]
fn main() {
    first_truss::screens::mount();
}

#[cfg(not(target_arch = "wasm32"))]
fn main() {
    println!("First Truss is a web page: `cargo task serve` builds it and prints its address.");
}
