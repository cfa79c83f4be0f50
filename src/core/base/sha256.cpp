#include "inkturn/base/sha256.hpp"

#include <array>
#include <cstddef>
#include <cstdint>

namespace inkturn {
namespace {

constexpr std::size_t block_size = 64;
using Words = std::array<std::uint32_t, 8>;

constexpr std::array<std::uint32_t, 64> round_constants{
    0x428a2f98, 0x71374491, 0xb5c0fbcf, 0xe9b5dba5, 0x3956c25b, 0x59f111f1, 0x923f82a4, 0xab1c5ed5,
    0xd807aa98, 0x12835b01, 0x243185be, 0x550c7dc3, 0x72be5d74, 0x80deb1fe, 0x9bdc06a7, 0xc19bf174,
    0xe49b69c1, 0xefbe4786, 0x0fc19dc6, 0x240ca1cc, 0x2de92c6f, 0x4a7484aa, 0x5cb0a9dc, 0x76f988da,
    0x983e5152, 0xa831c66d, 0xb00327c8, 0xbf597fc7, 0xc6e00bf3, 0xd5a79147, 0x06ca6351, 0x14292967,
    0x27b70a85, 0x2e1b2138, 0x4d2c6dfc, 0x53380d13, 0x650a7354, 0x766a0abb, 0x81c2c92e, 0x92722c85,
    0xa2bfe8a1, 0xa81a664b, 0xc24b8b70, 0xc76c51a3, 0xd192e819, 0xd6990624, 0xf40e3585, 0x106aa070,
    0x19a4c116, 0x1e376c08, 0x2748774c, 0x34b0bcb5, 0x391c0cb3, 0x4ed8aa4a, 0x5b9cca4f, 0x682e6ff3,
    0x748f82ee, 0x78a5636f, 0x84c87814, 0x8cc70208, 0x90befffa, 0xa4506ceb, 0xbef9a3f7, 0xc67178f2};

constexpr std::uint32_t rotated(std::uint32_t word, unsigned by) {
    return word >> by | word << (32U - by);
}

/// 6.2.2, step 1.
std::array<std::uint32_t, 64> schedule_of(std::string_view block) {
    std::array<std::uint32_t, 64> w{};
    for (std::size_t i = 0; i < block_size; ++i)
        w[i / 4] = w[i / 4] << 8U | static_cast<unsigned char>(block[i]);
    for (std::size_t t = 16; t < w.size(); ++t) {
        const std::uint32_t s0 = rotated(w[t - 15], 7) ^ rotated(w[t - 15], 18) ^ w[t - 15] >> 3U;
        const std::uint32_t s1 = rotated(w[t - 2], 17) ^ rotated(w[t - 2], 19) ^ w[t - 2] >> 10U;
        w[t] = s1 + w[t - 7] + s0 + w[t - 16];
    }
    return w;
}

/// 6.2.2, steps 2 to 4.
void take_block(Words& hash, std::string_view block) {
    const auto w = schedule_of(block);
    auto [a, b, c, d, e, f, g, h] = hash;
    for (std::size_t t = 0; t < w.size(); ++t) {
        const std::uint32_t s1 = rotated(e, 6) ^ rotated(e, 11) ^ rotated(e, 25);
        const std::uint32_t t1 = h + s1 + ((e & f) ^ (~e & g)) + round_constants[t] + w[t];
        const std::uint32_t s0 = rotated(a, 2) ^ rotated(a, 13) ^ rotated(a, 22);
        const std::uint32_t t2 = s0 + ((a & b) ^ (a & c) ^ (b & c));
        h = g;
        g = f;
        f = e;
        e = d + t1;
        d = c;
        c = b;
        b = a;
        a = t1 + t2;
    }
    const Words after{a, b, c, d, e, f, g, h};
    for (std::size_t i = 0; i < hash.size(); ++i)
        hash[i] += after[i];
}

void append_big_endian(std::string& bytes, std::uint64_t number, unsigned size) {
    for (unsigned i = size; i-- > 0;)
        bytes += static_cast<char>(number >> (8U * i) & 0xFFU);
}

} // namespace

std::string sha256(std::string_view bytes) {
    Words hash{0x6a09e667, 0xbb67ae85, 0x3c6ef372, 0xa54ff53a,
               0x510e527f, 0x9b05688c, 0x1f83d9ab, 0x5be0cd19};
    std::size_t done = 0;
    for (; bytes.size() - done >= block_size; done += block_size)
        take_block(hash, bytes.substr(done, block_size));
    constexpr std::size_t length_size = 8;
    std::string rest(bytes.substr(done));
    rest += '\x80';
    while (rest.size() % block_size != block_size - length_size)
        rest += '\0';
    append_big_endian(rest, std::uint64_t{bytes.size()} * 8, length_size);
    for (std::size_t i = 0; i < rest.size(); i += block_size)
        take_block(hash, std::string_view(rest).substr(i, block_size));
    std::string digest;
    for (const std::uint32_t word : hash)
        append_big_endian(digest, word, 4);
    return digest;
}

} // namespace inkturn
