//! The golden hashes are the ones on file, in this build as in every other. After a change of physics or of a demo scenario
//! they are written anew with `HEARTHLOAD_WRITE=1 cargo test --test golden`.

const ON_FILE: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/reference/golden.txt");

#[test]
fn every_hash_is_the_one_on_file() {
    let mut got = String::new();
    for (name, hash) in hearthload::golden::all() {
        got += &format!("{name} {hash}\n");
    }
    if std::env::var_os("HEARTHLOAD_WRITE").is_some() {
        std::fs::write(ON_FILE, &got).expect("golden.txt can be written");
    }
    let expected = std::fs::read_to_string(ON_FILE).expect("golden.txt can be read");
    assert_eq!(got, expected);
}
