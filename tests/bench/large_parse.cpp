// The TOML library as the system has it, alone: the reference of large_bench.cpp. A program of its own, because the job
// room brings its own build of the same parser.

#include <toml++/toml.h>

int main(int count, char** arguments) { return count == 2 && !toml::parse_file(arguments[1]).empty() ? 0 : 1; }
