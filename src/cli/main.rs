//! hearthload for the terminal.

fn main() {
    let answer = hearthload::ask::answer(r#"{"question":"golden"}"#);
    let _ = std::io::Write::write_all(&mut std::io::stdout(), format!("{answer}\n").as_bytes());
}
