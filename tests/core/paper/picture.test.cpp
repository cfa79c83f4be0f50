#include "inkturn/paper/picture.hpp"

#include "catch.hpp"
#include "inkturn/base/error.hpp"

namespace {

using namespace inkturn;

TEST_CASE("a picture is kept under a question's label or a part's") {
    const Paper paper({"p", "", "", std::nullopt, RetryBy::question},
                      {{"1", Marks(1), "", ""}, {"7a", Marks(1), "", ""}, {"7bii", Marks(1), "", ""}});
    CHECK(picture_label(paper, "7") == "7");
    CHECK(picture_label(paper, "Q7 (b)(ii)") == "7bii");
    CHECK(picture_label(paper, "1") == "1");
    for (const char* const nothing : {"2", "7b", "7c", "1a", "A7", "", "seven"})
        CHECK_THROWS_AS(picture_label(paper, nothing), Error);
}

TEST_CASE("what a picture is and shows is written as a word") {
    for (const PictureKind kind : {PictureKind::png, PictureKind::jpeg})
        CHECK(picture_kind_named(name(kind)) == kind);
    for (const PictureContent content : {PictureContent::question, PictureContent::scheme})
        CHECK(picture_content_named(name(content)) == content);
    CHECK_FALSE(picture_kind_named("gif"));
    CHECK_FALSE(picture_content_named("answer"));
}

} // namespace
