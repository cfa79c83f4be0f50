#include "view/page/base64.hpp"

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

TEST_CASE("a picture's address names its kind and holds its bytes") {
    CHECK(data_uri({PictureKind::png, 1, 1, "foobar"}) == "data:image/png;base64,Zm9vYmFy");
    CHECK(data_uri({PictureKind::jpeg, 1, 1, std::string("\0\xFF", 2)}) == "data:image/jpeg;base64,AP8=");
}

TEST_CASE("a picture's address has nothing that HTML would take for its own") {
    std::string bytes;
    for (int i = 0; i < 1000; ++i)
        bytes += static_cast<char>(static_cast<unsigned char>(i * 7 % 256));
    CHECK(data_uri({PictureKind::jpeg, 1, 1, bytes}).find_first_of("<>&\"' \n") == std::string::npos);
}
