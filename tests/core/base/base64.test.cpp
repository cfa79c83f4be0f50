#include "inkturn/base/base64.hpp"

#include "catch.hpp"

#include <cstddef>
#include <string>

using namespace inkturn;

TEST_CASE("RFC 4648 section 10: the test vectors of base64", "[reference]") {
    CHECK(base64("") == "");
    CHECK(base64("f") == "Zg==");
    CHECK(base64("fo") == "Zm8=");
    CHECK(base64("foo") == "Zm9v");
    CHECK(base64("foob") == "Zm9vYg==");
    CHECK(base64("fooba") == "Zm9vYmE=");
    CHECK(base64("foobar") == "Zm9vYmFy");
}

TEST_CASE("RFC 4648 section 9: the illustrations of base64", "[reference]") {
    CHECK(base64("\x14\xFB\x9C\x03\xD9\x7E") == "FPucA9l+");
    CHECK(base64("\x14\xFB\x9C\x03\xD9") == "FPucA9k=");
    CHECK(base64("\x14\xFB\x9C\x03") == "FPucAw==");
}

TEST_CASE("RFC 4648 table 1: every digit of base64 in its place", "[reference]") {
    std::string bytes; // the numbers 0 to 63 in six bits each
    for (unsigned i = 0; i < 64; i += 4) {
        const unsigned group = i << 18 | (i + 1) << 12 | (i + 2) << 6 | (i + 3);
        for (const unsigned shift : {16u, 8u, 0u})
            bytes += static_cast<char>(static_cast<unsigned char>(group >> shift & 0xFF));
    }
    CHECK(base64(bytes) == "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/");
}

TEST_CASE("what base64 gives is read back, whatever the bytes") {
    std::string bytes;
    for (int i = 0; i < 300; ++i) {
        CHECK(read_base64(base64(bytes)) == bytes);
        bytes += static_cast<char>(static_cast<unsigned char>(i * 37 % 256));
    }
}

TEST_CASE("what is not base64 is not read") {
    for (const char* const text :
         {"Zg", "Zg=", "Z===", "====", "Zg==Zg==", "Zm9v\n", "Zm 9", "Zm9-", "Zh==", "Zm9="})
        CHECK_FALSE(read_base64(text));
}
