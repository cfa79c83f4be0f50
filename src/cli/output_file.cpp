#include "cli/output_file.hpp"

#include "inkturn/base/error.hpp"

#include <cerrno>
#include <cstdlib>
#include <cstring>
#include <ostream>
#include <sys/stat.h>
#include <unistd.h>

namespace inkturn {
namespace {

Option add_output(Command& command, OutputOptions& options, const std::string& help) {
    const Option output = command.option("-o,--output", options.file, "FILE", help);
    command.flag("--force", options.force, "Write over a file that is there");
    return output;
}

[[noreturn]] void refuse_to_write(const std::string& file, const std::string& why) {
    throw Error("'" + file + "' can't be written: " + why);
}

void check_may_take_its_place(const OutputOptions& options) {
    struct stat status {};
    if (::lstat(options.file.c_str(), &status) != 0)
        return;
    if (S_ISDIR(status.st_mode))
        refuse_to_write(options.file, "that is a folder; name a file");
    if (!S_ISREG(status.st_mode))
        refuse_to_write(options.file, "that is no regular file");
    if (!options.force)
        throw Error("'" + options.file + "' is there already; name another file, or say --force");
}

/// A file under a passing name beside the one that is wanted; goes at the end of its scope, unless it was
/// given that name.
class PassingFile {
  public:
    explicit PassingFile(const std::string& wanted) : wanted_(wanted), name_(wanted + ".XXXXXX") {
        descriptor_ = ::mkstemp(name_.data()); // for its owner alone
        if (descriptor_ < 0)
            refuse_to_write(wanted_, std::strerror(errno));
    }
    ~PassingFile() {
        if (descriptor_ >= 0)
            ::close(descriptor_);
        if (!done_)
            ::unlink(name_.c_str());
    }
    PassingFile(const PassingFile&) = delete;
    PassingFile& operator=(const PassingFile&) = delete;

    void write(const std::string& content) {
        for (std::size_t done = 0; done < content.size();) {
            const ssize_t count = ::write(descriptor_, content.data() + done, content.size() - done);
            if (count < 0 && errno != EINTR)
                refuse_to_write(wanted_, std::strerror(errno));
            done += count < 0 ? 0 : static_cast<std::size_t>(count);
        }
    }

    void take_its_name() {
        const bool synced = ::fsync(descriptor_) == 0;
        const bool closed = ::close(descriptor_) == 0;
        descriptor_ = -1;
        if (!synced || !closed || std::rename(name_.c_str(), wanted_.c_str()) != 0)
            refuse_to_write(wanted_, std::strerror(errno));
        done_ = true;
    }

  private:
    std::string wanted_;
    std::string name_;
    int descriptor_;
    bool done_ = false;
};

} // namespace

void OutputOptions::add_to(Command& command) {
    add_output(command, *this, "The file to write; - is standard output").required();
}

void OutputOptions::add_to(Command& command, const std::string& help) {
    add_output(command, *this, help);
}

void write_output(const Context& context, const OutputOptions& options, const std::string& content) {
    if (options.file == "-") {
        context.out << content;
        return;
    }
    check_may_take_its_place(options);
    PassingFile file(options.file);
    file.write(content);
    file.take_its_name();
}

} // namespace inkturn
