//! Mounts the page in a browser; anywhere else says how to run it.

/// The memory of the program in the browser. The standard library's way of handing it out is three kilobytes more of program.
#[cfg(all(target_arch = "wasm32", feature = "page"))]
#[global_allocator]
static MEMORY: rlsf::GlobalTlsf<SmallMemory> = rlsf::GlobalTlsf::new();

#[cfg(all(target_arch = "wasm32", feature = "page"))]
struct SmallMemory;

#[cfg(all(target_arch = "wasm32", feature = "page"))]
impl rlsf::GlobalTlsfOptions for SmallMemory {
    const ENABLE_REALLOCATION: bool = false;
}

/// Memory that is asked for at the start, bytes (choice).
#[cfg(all(target_arch = "wasm32", feature = "page"))]
const FIRST_MEMORY: usize = 1 << 20;

#[cfg(all(target_arch = "wasm32", feature = "page"))]
fn main() {
    // Asked for at once and given back to be handed out: the memory grows once, not again and again.
    drop(std::hint::black_box(Vec::<u8>::with_capacity(FIRST_MEMORY)));
    first_truss::screens::mount();
}

#[cfg(not(all(target_arch = "wasm32", feature = "page")))]
fn main() {
    println!("First Truss is a web page: `cargo task serve` builds it and prints its address.");
}
