#include "view/page/data_uri.hpp"

#include "catch.hpp"

#include <string>

using namespace inkturn;

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
