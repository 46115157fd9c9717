//! SHA-256, as browsers write it.

use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;
use sha2::{Digest as _, Sha256};

/// Such as "sha256-47DEQpj8HBSa+/TImW+5JCeuQeRkm5NMpJWZG3hSuFU=", for a policy or a request.
pub fn integrity(bytes: &[u8]) -> String {
    format!("sha256-{}", STANDARD.encode(Sha256::digest(bytes)))
}

/// The first 16 hexadecimal digits: enough to tell builds apart, short enough to read out.
pub fn short(bytes: &[u8]) -> String {
    let digits: Vec<_> = Sha256::digest(bytes).iter().take(8).map(|byte| format!("{byte:02x}")).collect();
    digits.concat()
}
