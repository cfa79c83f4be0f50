#include "exchange/pdf/page_raster.hpp"

#include "catch.hpp"
#include "inkturn/base/error.hpp"

#include <cstdlib>
#include <fstream>
#include <random>
#include <string>

#include <sys/stat.h>
#include <unistd.h>

namespace {

using namespace inkturn;
using namespace std::string_literals;
using Catch::Matchers::Contains;

/// A program that is found under the name of pdftoppm, while this is there.
class StandIn {
  public:
    explicit StandIn(const std::string& script) : path_(std::getenv("PATH")) {
        REQUIRE(::mkdtemp(folder_) != nullptr);
        std::ofstream(program()) << "#!/bin/sh\n" << script;
        REQUIRE(::chmod(program().c_str(), 0700) == 0);
        ::setenv("PATH", folder_, 1);
    }
    ~StandIn() {
        ::setenv("PATH", path_.c_str(), 1);
        ::unlink(program().c_str());
        ::rmdir(folder_);
    }
    StandIn(const StandIn&) = delete;
    StandIn& operator=(const StandIn&) = delete;

  private:
    std::string program() const { return folder_ + "/pdftoppm"s; }

    char folder_[32] = "/tmp/inkturn-pages-XXXXXX";
    std::string path_;
};

/// Draws a pixel a page, as grey as its number.
constexpr const char* numbered_pages =
    R"sh(while [ $# -gt 0 ]; do
    case $1 in -f) first=$2 ;; -l) last=$2 ;; esac
    shift
done
while [ "$first" -le "$last" ]; do
    printf 'P5\n1 1\n255\n'
    printf "\\$(printf %o "$first")"
    first=$((first + 1))
done
)sh";

} // namespace

TEST_CASE("pictures of pages are read one after the other") {
    const auto pages = parse_pgm("P5\n3 2\n255\n\0\x01\x02\xFD\xFE\xFFP5\n1 1\n255\nP"s);
    REQUIRE(pages.size() == 2);
    CHECK(pages[0].width == 3);
    CHECK(pages[0].height == 2);
    CHECK(pages[0].pixels == std::vector<std::uint8_t>{0, 1, 2, 253, 254, 255});
    CHECK(pages[1].pixels == std::vector<std::uint8_t>{'P'});
    CHECK(parse_pgm("").empty());
}

TEST_CASE("pictures that are damaged or far too large are refused") {
    for (const char* bad :
         {"P5", "P5\n", "P5\n1 1\n255\n", "P6\n1 1\n255\nxxx", "P5\n0 1\n255\n", "P5\n1 0\n255\n",
          "P5\n-1 1\n255\nx", "P5\n1 1\n65535\nxx", "P5\n1 1 255", "P5\n2 2\n255\nabc", "P5\n1 1\n255\nxy",
          "P5\n5000 5000\n255\n", "P5\n4294967297 4294967296\n255\nx", "P5\n99999999999999999999 1\n255\nx",
          "P5\n18446744073709551615 2\n255\nxx"})
        CHECK_THROWS_AS(parse_pgm(bad), Error);
}

TEST_CASE("whatever is made of a picture, it is whole or refused") {
    const std::string good = "P5\n4 3\n255\nabcdefghijklP5\n2 2\n255\nmnop";
    std::mt19937 dice(4);
    int read = 0, refused = 0;
    for (int round = 0; round < 3000; ++round) {
        std::string bad = good;
        bad[dice() % bad.size()] = "P5\n 0129x"[dice() % 9];
        bad.resize(bad.size() - (dice() % 3 == 0 ? 1 : 0));
        try {
            for (const Raster& raster : parse_pgm(bad))
                REQUIRE(raster.pixels.size() == raster.width * raster.height);
            ++read;
        } catch (const Error&) {
            ++refused;
        }
    }
    CHECK(read > 300);
    CHECK(refused > 300);
}

TEST_CASE("a page that was not requested is not drawn") {
    PageRasters pages("none.pdf", {1, 2, 4});
    CHECK_THROWS_AS(pages.page(0), Error);
    CHECK_THROWS_AS(pages.page(3), Error);
}

TEST_CASE("each page is the one requested, in order or not") {
    const StandIn pdftoppm(numbered_pages);
    std::vector<std::size_t> wanted;
    for (std::size_t page = 0; page < 40; ++page)
        if (page != 5 && page != 23 && page != 24)
            wanted.push_back(page);
    PageRasters pages("paper.pdf", wanted);
    for (const std::size_t page : wanted)
        CHECK(pages.page(page).pixels == std::vector<std::uint8_t>{static_cast<std::uint8_t>(page + 1)});
    for (const std::size_t page : {39u, 0u, 6u, 6u, 22u, 25u, 1u})
        CHECK(pages.page(page).pixels == std::vector<std::uint8_t>{static_cast<std::uint8_t>(page + 1)});
}

TEST_CASE("pages may come in pieces of any size, and the rest of them need not be taken") {
    PgmReader reader([](Raster& raster) { CHECK(raster.pixels == std::vector<std::uint8_t>{'a', 'b'}); });
    for (int picture = 0; picture < 3; ++picture)
        for (const char c : "P5\n2 1\n255\nab"s)
            reader.take(std::string(1, c));
    CHECK_NOTHROW(reader.end());
    CHECK(reader.room().size == 0);
    reader.take("P5\n2 1\n255\n");
    for (const std::size_t left : {2U, 1U}) { // read into its own memory
        REQUIRE(reader.room().size == left);
        *reader.room().at = left == 2 ? 'a' : 'b';
        reader.take({reader.room().at, 1});
    }
    CHECK(reader.room().size == 0);
    CHECK_NOTHROW(reader.end());
    const StandIn pdftoppm(numbered_pages);
    PageRasters pages("paper.pdf", {0, 1, 2, 3, 4, 5, 6, 7, 8, 9});
    CHECK(pages.page(0).pixels == std::vector<std::uint8_t>{1});
}

TEST_CASE("pages that are not drawn are named") {
    {
        const StandIn pdftoppm("printf 'P5\\n1 1\\n255\\nx'");
        PageRasters pages("paper.pdf", {2, 3, 4});
        CHECK_NOTHROW(pages.page(2));
        CHECK_THROWS_WITH(pages.page(3), Contains("pages 4 to 5 could not be drawn"));
    }
    const StandIn pdftoppm("exit 1");
    PageRasters pages("paper.pdf", {0});
    CHECK_THROWS_WITH(pages.page(0), Contains("page 1 could not be drawn"));
}
