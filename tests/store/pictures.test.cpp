#include "inkturn/store/store.hpp"

#include "catch.hpp"
#include "store/store_on_file.hpp"

#include <string>
#include <vector>

namespace {

using namespace inkturn;
using namespace inkturn::test;

Paper example(const std::string& id = "made-up", RetryBy by = RetryBy::question) {
    return Paper({id, "", "", std::nullopt, by},
                 {{"1", Marks(3), "", ""}, {"2a", Marks(5), "", ""}, {"2b", Marks(1), "", ""}});
}

Picture picture(const std::string& bytes, PictureKind kind = PictureKind::png) {
    return {kind, 40, 30, bytes};
}

std::vector<std::string> bytes(const std::vector<Picture>& pictures) {
    std::vector<std::string> all;
    for (const Picture& picture : pictures)
        all.push_back(picture.bytes);
    return all;
}

using Bytes = std::vector<std::string>;

TEST_CASE("pictures come back whole, in their order, by question and by what they show") {
    StoreOnFile on;
    const std::string odd("\0\xFF\n'\"", 5);
    on.change([&](Store::Change& open) {
        open.add_paper(example());
        open.add_paper(example("other"));
        open.add_picture(example(), "2", PictureContent::question,
                         picture("second" + odd, PictureKind::jpeg));
        open.add_picture(example(), "2", PictureContent::question, picture("first"));
        open.add_picture(example(), "2", PictureContent::scheme, picture("scheme"));
        open.add_picture(example(), "1", PictureContent::question, picture("one"));
    });
    on.reopen();
    CHECK(bytes(on.store.pictures_of(example(), "2", PictureContent::question)) ==
          Bytes{"second" + odd, "first"});
    CHECK(bytes(on.store.pictures_of(example(), "2", PictureContent::scheme)) == Bytes{"scheme"});
    CHECK(on.store.pictures_of(example(), "1", PictureContent::scheme).empty());
    CHECK(on.store.pictures_of(example("other"), "2", PictureContent::question).empty());

    const std::vector<PictureOnFile> listed = on.store.pictures();
    REQUIRE(listed.size() == 4);
    CHECK(listed[0].kind == PictureKind::jpeg);
    CHECK(listed[0].bytes == 11);
    CHECK(listed[2].content == PictureContent::scheme);
    CHECK(listed[3].question == "1");
    const auto found = on.store.picture(listed[0].id);
    REQUIRE(found);
    CHECK(found->width == 40);
    CHECK(found->height == 30);
    CHECK(found->bytes == "second" + odd);
    CHECK_FALSE(on.store.picture(PictureId{99}));
}

TEST_CASE("a part without a picture of its own is shown by that of its question") {
    StoreOnFile on;
    const Paper by_part = example("by-part", RetryBy::part);
    on.change([&](Store::Change& open) {
        open.add_paper(by_part);
        open.add_picture(by_part, "2", PictureContent::question, picture("whole"));
        open.add_picture(by_part, "2b", PictureContent::question, picture("part"));
    });
    CHECK(bytes(on.store.pictures_of(by_part, "2a", PictureContent::question)) == Bytes{"whole"});
    CHECK(bytes(on.store.pictures_of(by_part, "2b", PictureContent::question)) == Bytes{"part"});
    CHECK(bytes(on.store.pictures_of(by_part, "2", PictureContent::question)) == Bytes{"whole"});
}

TEST_CASE("a picture goes alone or with its paper, and its bytes are overwritten") {
    StoreOnFile on;
    on.change([&](Store::Change& open) {
        open.add_paper(example());
        open.add_picture(example(), "1", PictureContent::question,
                         picture("Goldeneye-a" + std::string(20000, 'x')));
        open.add_picture(example(), "2", PictureContent::question, picture("Goldeneye-b"));
    });
    on.change([&](Store::Change& open) { open.remove_picture(open.store().pictures()[0].id); });
    CHECK(on.store.pictures().size() == 1);
    CHECK(bytes_of(on.file).find("Goldeneye-a") == std::string::npos);
    on.change([&](Store::Change& open) { open.remove_paper("made-up"); });
    CHECK(on.store.pictures().empty());
    CHECK(bytes_of(on.file).find("Goldeneye") == std::string::npos);
}

} // namespace
