//! How the program is linked.

fn main() {
    println!("cargo::rerun-if-changed=build.rs");
    let target = |what: &str| std::env::var(format!("CARGO_CFG_TARGET_{what}")).unwrap_or_default();
    // The reference is one large table of addresses. In a program that may be loaded anywhere
    // each of them is written anew at every start: two thirds of the time that a small book
    // takes to check. At a fixed place they are right as they stand.
    if target("OS") == "linux" && target("ENV") == "gnu" {
        println!("cargo::rustc-link-arg-bins=-no-pie");
    }
}
