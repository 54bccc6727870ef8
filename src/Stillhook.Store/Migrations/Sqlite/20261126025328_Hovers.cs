using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Stillhook.Store.Migrations.Sqlite
{
    /// <inheritdoc />
    public partial class Hovers : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<string>(
                name: "FuelFrom",
                table: "hover_point",
                type: "TEXT",
                nullable: true);

            migrationBuilder.AddColumn<double>(
                name: "FuelKg",
                table: "hover_point",
                type: "REAL",
                nullable: true);

            migrationBuilder.AddColumn<double>(
                name: "LoadKg",
                table: "hover_point",
                type: "REAL",
                nullable: true);
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropColumn(
                name: "FuelFrom",
                table: "hover_point");

            migrationBuilder.DropColumn(
                name: "FuelKg",
                table: "hover_point");

            migrationBuilder.DropColumn(
                name: "LoadKg",
                table: "hover_point");
        }
    }
}
