using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Stillhook.Store.Migrations.Sqlite
{
    /// <inheritdoc />
    public partial class Flights : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateTable(
                name: "flight",
                columns: table => new
                {
                    Id = table.Column<long>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    Name = table.Column<string>(type: "TEXT", nullable: false),
                    Digest = table.Column<string>(type: "TEXT", nullable: false),
                    Bytes = table.Column<long>(type: "INTEGER", nullable: false),
                    ImportedAt = table.Column<long>(type: "INTEGER", nullable: false),
                    JobText = table.Column<string>(type: "TEXT", nullable: true),
                    TypedJson = table.Column<string>(type: "TEXT", nullable: true),
                    SummaryJson = table.Column<string>(type: "TEXT", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_flight", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "record",
                columns: table => new
                {
                    FlightId = table.Column<long>(type: "INTEGER", nullable: false),
                    Content = table.Column<byte[]>(type: "BLOB", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_record", x => x.FlightId);
                    table.ForeignKey(
                        name: "FK_record_flight_FlightId",
                        column: x => x.FlightId,
                        principalTable: "flight",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateIndex(
                name: "IX_flight_Digest",
                table: "flight",
                column: "Digest",
                unique: true);
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "record");

            migrationBuilder.DropTable(
                name: "flight");
        }
    }
}
