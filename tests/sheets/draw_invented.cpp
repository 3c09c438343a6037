// Writes the sheets of the invented job, to look at: draw_invented FOLDER.
#include <fstream>
#include <iostream>

#include "sheets/invented_job.h"
#include "sheets/sheets.h"

int main(int argc, char** argv) {
  if (argc != 2) return std::cerr << "draw_invented FOLDER\n", 2;
  for (const trammel::Sheet& sheet :
       trammel::draw_sheets(trammel::sheets::invented_job(), trammel::sheets::invented_assessment())) {
    std::ofstream(std::string(argv[1]) + "/" + sheet.name + ".pdf", std::ios::binary) << sheet.pdf;
    std::cout << sheet.name << ": " << sheet.pages << "\n";
  }
}
