// The least a C++ program can do; what lidlift is measured against.
#include <iostream>

int main() { std::cout << "There is nothing to say.\n"; }
