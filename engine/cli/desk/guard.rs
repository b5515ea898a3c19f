//! Who is let in: this machine's own page, by its address and its token, and nobody else.

use hyper::Request;
use hyper::header::{HOST, HeaderMap, ORIGIN};

/// Bytes of the token: 256 bits.
const TOKEN_BYTES: usize = 32;
/// The header a page of ours sends the token in; no other site's page can set it without being asked first.
pub const TOKEN_HEADER: &str = "x-costcard-token";

/// What lets requests in.
#[derive(Debug)]
pub struct Guard {
    token: String,
    port: u16,
}

/// Why a request was refused.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Refused {
    /// It was not sent to this machine by its own name: the mark of a site that lent its name to this address.
    Host,
    /// It comes from another site's page.
    OtherSite,
    /// It lacks the token, or has a wrong one.
    Token,
}

impl Refused {
    /// In words.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Host => "This address is no name of the desk.\n",
            Self::OtherSite => "The desk answers its own page only.\n",
            Self::Token => {
                "The address of the desk has a secret in it. Use the one that `costcard desk` printed.\n"
            }
        }
    }
}

impl Guard {
    /// One with a new token.
    pub fn new(port: u16) -> anyhow::Result<Self> {
        let mut bytes = [0; TOKEN_BYTES];
        getrandom::fill(&mut bytes)
            .map_err(|error| anyhow::anyhow!("no random number for the address: {error}"))?;
        let token = bytes.iter().map(|byte| format!("{byte:02x}")).collect();
        Ok(Self { token, port })
    }

    /// The address of the page.
    pub fn address(&self) -> String {
        format!("http://127.0.0.1:{}/{}/", self.port, self.token)
    }

    /// Lets a request in, or says why not. The page and its parts have the token in their path, all else in a header.
    pub fn check<B>(&self, request: &Request<B>) -> Result<(), Refused> {
        let headers = request.headers();
        if !self.is_own_host(headers) {
            return Err(Refused::Host);
        }
        if self.is_other_site(headers) {
            return Err(Refused::OtherSite);
        }
        let path = request.uri().path();
        let given = match self.part_of_page(path) {
            Some((token, _)) => Some(token),
            None => headers
                .get(TOKEN_HEADER)
                .and_then(|value| value.to_str().ok()),
        };
        match given {
            Some(given) if same(given, &self.token) => Ok(()),
            _ => Err(Refused::Token),
        }
    }

    /// The token in a path, and which part of the page is asked for; none for what the page asks as it runs.
    pub fn part_of_page<'a>(&self, path: &'a str) -> Option<(&'a str, &'a str)> {
        let rest = path.strip_prefix('/')?;
        let (token, part) = rest.split_once('/')?;
        (token.len() == self.token.len()).then_some((token, part))
    }

    /// Exactly one `Host`, and this machine by number or name, with the port.
    fn is_own_host(&self, headers: &HeaderMap) -> bool {
        let mut hosts = headers.get_all(HOST).iter();
        let (Some(host), None) = (hosts.next(), hosts.next()) else {
            return false;
        };
        self.names()
            .iter()
            .any(|name| host.as_bytes() == name.as_bytes())
    }

    fn is_other_site(&self, headers: &HeaderMap) -> bool {
        let own = |origin: &[u8]| {
            let names = self.names();
            names
                .iter()
                .any(|name| origin == format!("http://{name}").as_bytes())
        };
        let mut origins = headers.get_all(ORIGIN).iter();
        let from_elsewhere = origins.any(|origin| !own(origin.as_bytes()));
        // Browsers say where a request comes from: a page of ours, or somebody who typed the address.
        let mut sites = headers.get_all("sec-fetch-site").iter();
        from_elsewhere || sites.any(|site| !matches!(site.as_bytes(), b"same-origin" | b"none"))
    }

    fn names(&self) -> [String; 2] {
        ["127.0.0.1", "localhost"].map(|name| format!("{name}:{}", self.port))
    }
}

/// Whether two texts are the same, in a time that does not tell how far they are.
fn same(a: &str, b: &str) -> bool {
    let differs = a
        .bytes()
        .zip(b.bytes())
        .fold(0, |all, (a, b)| all | (a ^ b));
    a.len() == b.len() && differs == 0
}

#[cfg(test)]
#[allow(clippy::unwrap_used)] // a test may stop
mod tests {
    use super::*;

    fn guard() -> Guard {
        Guard {
            token: "t".repeat(2 * TOKEN_BYTES),
            port: 80,
        }
    }

    fn checked(path: &str, headers: &[(&str, &str)]) -> Result<(), Refused> {
        let mut request = Request::builder().uri(path);
        for (name, value) in headers {
            request = request.header(*name, *value);
        }
        guard().check(&request.body(()).unwrap())
    }

    #[test]
    fn only_the_own_page_is_let_in() {
        let page = format!("/{}/", guard().token);
        let host = ("host", "127.0.0.1:80");
        assert_eq!(checked(&page, &[host]), Ok(()));
        assert_eq!(checked(&page, &[("host", "localhost:80")]), Ok(()));
        for bad in [
            "127.0.0.1",
            "127.0.0.1:81",
            "evil.example:80",
            "localhost.evil:80",
            "[::1]:80",
        ] {
            assert_eq!(
                checked(&page, &[("host", bad)]),
                Err(Refused::Host),
                "{bad}"
            );
        }
        assert_eq!(checked(&page, &[]), Err(Refused::Host));
        assert_eq!(checked(&page, &[host, host]), Err(Refused::Host));
        for bad in [
            "http://evil.example",
            "null",
            "https://127.0.0.1:80",
            "http://127.0.0.1",
        ] {
            let found = checked(&page, &[host, ("origin", bad)]);
            assert_eq!(found, Err(Refused::OtherSite), "{bad}");
        }
        assert_eq!(
            checked(&page, &[host, ("origin", "http://localhost:80")]),
            Ok(())
        );
        for (site, wanted) in [
            ("none", true),
            ("same-origin", true),
            ("same-site", false),
            ("cross-site", false),
        ] {
            assert_eq!(
                checked(&page, &[host, ("sec-fetch-site", site)]).is_ok(),
                wanted,
                "{site}"
            );
        }
    }

    #[test]
    fn the_token_is_asked_for_everywhere() {
        let (token, host) = (guard().token, ("host", "127.0.0.1:80"));
        assert_eq!(checked("/api/lesson", &[host]), Err(Refused::Token));
        assert_eq!(
            checked("/api/lesson", &[host, (TOKEN_HEADER, &token)]),
            Ok(())
        );
        assert_eq!(
            checked("/api/lesson", &[host, (TOKEN_HEADER, &token[1..])]),
            Err(Refused::Token)
        );
        let wrong = "u".repeat(token.len());
        assert_eq!(checked(&format!("/{wrong}/"), &[host]), Err(Refused::Token));
        // A path that holds a wrong token is not saved by a right header.
        assert_eq!(
            checked(&format!("/{wrong}/"), &[host, (TOKEN_HEADER, &token)]),
            Err(Refused::Token)
        );
        assert_eq!(checked("/", &[host]), Err(Refused::Token));
        let [one, other] = [Guard::new(1).unwrap(), Guard::new(1).unwrap()];
        assert_ne!(one.token, other.token);
        assert_eq!(one.token.len(), 64);
    }
}
