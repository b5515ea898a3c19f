//! Who is let in, what is refused, and the limits of time and size.

use std::io::{Read, Write};
use std::net::TcpStream;
use std::time::{Duration, Instant};

use super::{Desk, question};

#[test]
fn the_address_is_one_line_of_this_machine_and_holds_a_new_secret() {
    let desks = [Desk::open(&[]), Desk::open(&[])];
    for desk in &desks {
        assert!(
            desk.address.starts_with("http://127.0.0.1:"),
            "{}",
            desk.address
        );
        assert_eq!(desk.token.len(), 64);
        assert_eq!(
            desk.address,
            format!("http://{}/{}/", desk.host, desk.token)
        );
        // It listens on one address alone: not on others of this machine, and so on none of its network.
        let port: u16 = desk
            .host
            .rsplit(':')
            .next()
            .expect("a port")
            .parse()
            .expect("a number");
        assert!(TcpStream::connect(("127.0.0.2", port)).is_err());
    }
    assert_ne!(desks[0].token, desks[1].token);
}

#[test]
fn with_json_the_address_is_a_document() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut program = std::process::Command::new(env!("CARGO_BIN_EXE_costcard"))
        .args(["desk", "--no-open", "--json"])
        .current_dir(folder.path())
        .stdout(std::process::Stdio::piped())
        .spawn()
        .expect("it runs");
    let mut line = String::new();
    let stdout = program.stdout.take().expect("stdout");
    std::io::BufRead::read_line(&mut std::io::BufReader::new(stdout), &mut line).expect("a line");
    program.kill().expect("ended");
    program.wait().expect("ended");
    let document: serde_json::Value = serde_json::from_str(&line).expect("one document");
    let address = document["address"].as_str().expect("an address");
    assert!(address.starts_with("http://127.0.0.1:"), "{address}");
}

#[test]
fn without_the_token_nothing_is_told() {
    let desk = Desk::open(&[]);
    let host = ("host", desk.host.as_str());
    let wrong = "0".repeat(64);
    for (path, headers) in [
        ("/".to_owned(), vec![host]),
        ("/desk.js".to_owned(), vec![host]),
        (format!("/{wrong}/"), vec![host]),
        (format!("/{wrong}/desk.js"), vec![host]),
        ("/api/lesson".to_owned(), vec![host]),
        (
            "/api/files".to_owned(),
            vec![host, ("x-costcard-token", &wrong)],
        ),
        // The token of the address opens the page, not what the page asks.
        (format!("/api/lesson?{}", desk.token), vec![host]),
    ] {
        let reply = desk.plain("GET", &path, &headers, b"");
        assert_eq!(reply.status, 403, "{path}");
        assert!(!reply.text().contains(&desk.token));
    }
    let reply = desk.plain("POST", "/api/try", &[host], &question(1, "quick", &[]));
    assert_eq!(reply.status, 403);
    for part in ["", "desk.css", "desk.js"] {
        assert_eq!(desk.part(part).status, 200, "{part}");
    }
    for part in [
        "desk",
        "../desk.js",
        "..%2fdesk.js",
        "desk.js/",
        "etc/passwd",
    ] {
        assert_eq!(desk.part(part).status, 404, "{part}");
    }
    assert_eq!(desk.ask("GET", "/api/nothing", b"").status, 404);
    assert_eq!(desk.ask("DELETE", "/api/lesson", b"").status, 404);
    assert_eq!(desk.ask("GET", "/api/report?name=x.html", b"").status, 404);
}

#[test]
fn other_sites_and_other_names_are_refused() {
    let desk = Desk::open(&[]);
    let token = ("x-costcard-token", desk.token.as_str());
    let port = desk.host.rsplit(':').next().expect("a port");
    let asked = |headers: &[(&str, &str)]| {
        let all = [&[token], headers].concat();
        desk.plain("GET", "/api/lesson", &all, b"").status
    };
    let host = ("host", desk.host.as_str());
    let by_name = format!("localhost:{port}");
    assert_eq!(asked(&[host]), 200);
    assert_eq!(asked(&[("host", &by_name)]), 200);
    for other in [
        "evil.example".to_owned(),
        format!("evil.example:{port}"),
        "127.0.0.1".to_owned(),
        format!("127.0.0.2:{port}"),
        format!("localhost.evil.example:{port}"),
    ] {
        assert_eq!(asked(&[("host", &other)]), 403, "{other}");
    }
    assert_ne!(asked(&[host, host]), 200, "two names");
    let own = format!("http://{}", desk.host);
    assert_eq!(asked(&[host, ("origin", &own)]), 200);
    for other in [
        "http://evil.example",
        "null",
        "https://127.0.0.1",
        "file://",
    ] {
        assert_eq!(asked(&[host, ("origin", other)]), 403, "{other}");
    }
    assert_eq!(asked(&[host, ("sec-fetch-site", "same-origin")]), 200);
    for other in ["cross-site", "same-site"] {
        assert_eq!(asked(&[host, ("sec-fetch-site", other)]), 403, "{other}");
    }
    // A page of another site that asks whether it may ask is told nothing either.
    let options = [host, ("origin", "http://evil.example")];
    let reply = desk.plain("OPTIONS", "/api/lesson", &options, b"");
    assert_eq!(reply.status, 403);
    assert!(!reply.head.contains("access-control"), "{}", reply.head);
}

#[test]
fn every_answer_keeps_to_itself() {
    let desk = Desk::open(&[]);
    let refused = desk.plain("GET", "/", &[("host", &desk.host)], b"");
    for reply in [
        desk.part(""),
        desk.part("desk.js"),
        desk.ask("GET", "/api/lesson", b""),
        refused,
    ] {
        for header in [
            "content-security-policy: default-src 'none'; script-src 'self'; style-src 'self';",
            "frame-ancestors 'none'",
            "x-content-type-options: nosniff",
            "x-frame-options: deny",
            "referrer-policy: no-referrer",
            "cache-control: no-store",
            "cross-origin-resource-policy: same-origin",
        ] {
            assert!(reply.head.contains(header), "{header} in {}", reply.head);
        }
        assert!(!reply.head.contains("unsafe") && !reply.head.contains("set-cookie"));
    }
}

#[test]
fn what_is_too_long_is_refused() {
    let desk = Desk::open(&[]);
    let long = vec![b'x'; 17 * 1024 * 1024];
    let reply = desk.ask("POST", "/api/drop?as=seat&name=long.csv", &long);
    assert_eq!(reply.status, 413);
    assert_eq!(desk.ask("POST", "/api/try", &long[..65 * 1024]).status, 413);
    assert_eq!(desk.ask("POST", "/api/goal?handicap=5", b"x").status, 413);
    assert_eq!(desk.ask("GET", "/api/lesson", b"x").status, 413);
    // Said to be short, and sent on without end.
    let mut stream = desk.raw();
    let head = format!(
        "POST /api/try HTTP/1.1\r\nhost: {}\r\nx-costcard-token: {}\r\ntransfer-encoding: chunked\r\n\r\n",
        desk.host, desk.token
    );
    stream.write_all(head.as_bytes()).expect("sent");
    let chunk = format!("{:x}\r\n{}\r\n", 8192, "x".repeat(8192));
    while stream.write_all(chunk.as_bytes()).is_ok() {}
    // A head without end.
    let mut stream = desk.raw();
    stream.write_all(b"GET / HTTP/1.1\r\n").expect("sent");
    let line = format!("x-long: {}\r\n", "x".repeat(4000));
    while stream.write_all(line.as_bytes()).is_ok() {}
    assert_eq!(desk.part("").status, 200, "it serves on");
}

#[test]
fn a_client_that_is_slow_is_dropped() {
    let desk = Desk::open(&[]);
    let begun = Instant::now();
    let mut slow = desk.raw();
    slow.write_all(b"GET / HTTP/1.1\r\nhost: 127")
        .expect("sent");
    let mut rest = Vec::new();
    // Ended by the server, with or without a word.
    let _ = slow.read_to_end(&mut rest);
    let took = begun.elapsed();
    assert!(took < Duration::from_secs(30), "{took:?}");
    assert!(took > Duration::from_secs(2), "{took:?}: too hasty");
    assert_eq!(desk.part("").status, 200);
}

#[test]
fn many_clients_that_say_nothing_do_not_keep_the_page_away() {
    let desk = Desk::open(&[]);
    let silent: Vec<TcpStream> = (0..100).map(|_| desk.raw()).collect();
    assert_eq!(desk.part("").status, 200);
    drop(silent);
}
