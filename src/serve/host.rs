//! The addresses and names by which this machine is reached.

use std::net::{IpAddr, Ipv4Addr, Ipv6Addr, SocketAddr};

/// An address that leads to a listener, also where it listens on every interface.
pub(super) fn reachable(mut address: SocketAddr) -> SocketAddr {
    if address.ip().is_unspecified() {
        address.set_ip(match address.ip() {
            IpAddr::V4(_) => Ipv4Addr::LOCALHOST.into(),
            IpAddr::V6(_) => Ipv6Addr::LOCALHOST.into(),
        });
    }
    address
}

/// Whether a host, with its port or without, is this machine itself.
pub(super) fn is_this_machine(host: &str) -> bool {
    let without_port = match host.rsplit_once(':') {
        Some((name, port)) if port.bytes().all(|byte| byte.is_ascii_digit()) => name,
        _ => host,
    };
    let name = without_port.trim_start_matches('[').trim_end_matches(']');
    name.eq_ignore_ascii_case("localhost") || name.parse().is_ok_and(|ip: IpAddr| ip.is_loopback())
}
