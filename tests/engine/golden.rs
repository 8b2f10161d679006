//! The golden hash is the one on file, in this build as in every other.

#[test]
fn draws_hash_to_the_number_on_file() {
    let expected = include_str!("../reference/golden.txt");
    let line = expected.lines().find(|line| line.starts_with("draws ")).expect("golden.txt has a line for draws");
    assert_eq!(line, format!("draws {}", hearthload::golden::draws()));
}
