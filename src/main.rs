//! Mounts the page in a browser; anywhere else says how to run it.

#[cfg(all(target_arch = "wasm32", feature = "page"))]
fn main() {
    first_truss::screens::mount();
}

#[cfg(not(all(target_arch = "wasm32", feature = "page")))]
fn main() {
    println!("First Truss is a web page: `cargo task serve` builds it and prints its address.");
}
