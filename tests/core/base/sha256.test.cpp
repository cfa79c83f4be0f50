#include "inkturn/base/sha256.hpp"

#include "catch.hpp"

using namespace inkturn;

namespace {

std::string hex_of(const std::string& bytes) {
    std::string hex;
    for (const char byte : bytes)
        for (const int shift : {4, 0})
            hex += "0123456789abcdef"[static_cast<unsigned char>(byte) >> shift & 15];
    return hex;
}

} // namespace

TEST_CASE("digests are those of the examples of FIPS 180-2, appendix B", "[reference]") {
    CHECK(hex_of(sha256("abc")) == "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
    CHECK(hex_of(sha256("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq")) ==
          "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1");
    CHECK(hex_of(sha256(std::string(1'000'000, 'a'))) ==
          "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0");
}

TEST_CASE("texts that end just before, at and after a block have digests of their own") {
    CHECK(hex_of(sha256("")) == "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
    std::string before;
    for (std::size_t size = 54; size <= 130; ++size) {
        const std::string digest = sha256(std::string(size, 'x'));
        CHECK(digest.size() == 32);
        CHECK(digest != before);
        before = digest;
    }
}
