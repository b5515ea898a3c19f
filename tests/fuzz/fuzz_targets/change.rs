#![no_main]

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| {
    costcard_fuzz::change(bytes);
});
