using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Stillhook.Store.Migrations.Sqlite
{
    /// <inheritdoc />
    public partial class Work : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateTable(
                name: "aircraft",
                columns: table => new
                {
                    Name = table.Column<string>(type: "TEXT", nullable: false),
                    Text = table.Column<string>(type: "TEXT", nullable: false),
                    By = table.Column<string>(type: "TEXT", nullable: false),
                    At = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_aircraft", x => x.Name);
                });

            migrationBuilder.CreateTable(
                name: "day_entry",
                columns: table => new
                {
                    Id = table.Column<long>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    Key = table.Column<Guid>(type: "TEXT", nullable: false),
                    Day = table.Column<DateOnly>(type: "TEXT", nullable: false),
                    Aircraft = table.Column<string>(type: "TEXT", nullable: true),
                    Kind = table.Column<string>(type: "TEXT", nullable: false),
                    Json = table.Column<string>(type: "TEXT", nullable: false),
                    By = table.Column<string>(type: "TEXT", nullable: false),
                    At = table.Column<long>(type: "INTEGER", nullable: false),
                    WithdrawnBy = table.Column<string>(type: "TEXT", nullable: true),
                    WithdrawnAt = table.Column<long>(type: "INTEGER", nullable: true),
                    WithdrawnWhy = table.Column<string>(type: "TEXT", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_day_entry", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "exceedance",
                columns: table => new
                {
                    Id = table.Column<long>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    FlightId = table.Column<long>(type: "INTEGER", nullable: false),
                    Kind = table.Column<string>(type: "TEXT", nullable: false),
                    Limit = table.Column<double>(type: "REAL", nullable: false),
                    Peak = table.Column<double>(type: "REAL", nullable: false),
                    AtS = table.Column<double>(type: "REAL", nullable: false),
                    DurationS = table.Column<double>(type: "REAL", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_exceedance", x => x.Id);
                    table.ForeignKey(
                        name: "FK_exceedance_flight_FlightId",
                        column: x => x.FlightId,
                        principalTable: "flight",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "hover_point",
                columns: table => new
                {
                    Id = table.Column<long>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    FlightId = table.Column<long>(type: "INTEGER", nullable: false),
                    AtS = table.Column<double>(type: "REAL", nullable: false),
                    Aircraft = table.Column<string>(type: "TEXT", nullable: false),
                    Pilot = table.Column<string>(type: "TEXT", nullable: true),
                    DensityAltitudeM = table.Column<double>(type: "REAL", nullable: false),
                    GrossKg = table.Column<double>(type: "REAL", nullable: false),
                    TorquePercent = table.Column<double>(type: "REAL", nullable: true),
                    PowerKw = table.Column<double>(type: "REAL", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_hover_point", x => x.Id);
                    table.ForeignKey(
                        name: "FK_hover_point_flight_FlightId",
                        column: x => x.FlightId,
                        principalTable: "flight",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "job",
                columns: table => new
                {
                    Key = table.Column<Guid>(type: "TEXT", nullable: false),
                    Name = table.Column<string>(type: "TEXT", nullable: false),
                    Day = table.Column<DateOnly>(type: "TEXT", nullable: true),
                    TimeZone = table.Column<string>(type: "TEXT", nullable: true),
                    Aircraft = table.Column<string>(type: "TEXT", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_job", x => x.Key);
                });

            migrationBuilder.CreateTable(
                name: "lift",
                columns: table => new
                {
                    Id = table.Column<long>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    Key = table.Column<Guid>(type: "TEXT", nullable: false),
                    FlightId = table.Column<long>(type: "INTEGER", nullable: true),
                    Number = table.Column<int>(type: "INTEGER", nullable: false),
                    AddedByHand = table.Column<bool>(type: "INTEGER", nullable: false),
                    NotFoundAgain = table.Column<bool>(type: "INTEGER", nullable: false),
                    Day = table.Column<DateOnly>(type: "TEXT", nullable: true),
                    Aircraft = table.Column<string>(type: "TEXT", nullable: true),
                    AtS = table.Column<double>(type: "REAL", nullable: true),
                    LoadNumber = table.Column<string>(type: "TEXT", nullable: true),
                    Family = table.Column<string>(type: "TEXT", nullable: true),
                    LoadKg = table.Column<double>(type: "REAL", nullable: true),
                    LoadMeasured = table.Column<bool>(type: "INTEGER", nullable: false),
                    PickUpTimeS = table.Column<double>(type: "REAL", nullable: true),
                    ApproachStartTimeS = table.Column<double>(type: "REAL", nullable: true),
                    StopTimeS = table.Column<double>(type: "REAL", nullable: true),
                    DeliveryTimeS = table.Column<double>(type: "REAL", nullable: true),
                    ReleaseTimeS = table.Column<double>(type: "REAL", nullable: true),
                    ClearTimeS = table.Column<double>(type: "REAL", nullable: true),
                    PickUpLatitudeDeg = table.Column<double>(type: "REAL", nullable: true),
                    PickUpLongitudeDeg = table.Column<double>(type: "REAL", nullable: true),
                    DeliveryLatitudeDeg = table.Column<double>(type: "REAL", nullable: true),
                    DeliveryLongitudeDeg = table.Column<double>(type: "REAL", nullable: true),
                    PickUpSite = table.Column<string>(type: "TEXT", nullable: true),
                    DeliverySite = table.Column<string>(type: "TEXT", nullable: true),
                    LineM = table.Column<double>(type: "REAL", nullable: true),
                    GoArounds = table.Column<int>(type: "INTEGER", nullable: false),
                    Confidence = table.Column<string>(type: "TEXT", nullable: false),
                    StruckOut = table.Column<bool>(type: "INTEGER", nullable: false),
                    CycleTimeS = table.Column<double>(type: "REAL", nullable: true),
                    HoverTimeS = table.Column<double>(type: "REAL", nullable: true),
                    OvershootM = table.Column<double>(type: "REAL", nullable: true),
                    SinkLast15Ms = table.Column<double>(type: "REAL", nullable: true),
                    SwingAfterStopM = table.Column<double>(type: "REAL", nullable: true),
                    SwingAfterStopLowM = table.Column<double>(type: "REAL", nullable: true),
                    SwingAfterStopHighM = table.Column<double>(type: "REAL", nullable: true),
                    SwingContactM = table.Column<double>(type: "REAL", nullable: true),
                    SwingContactLowM = table.Column<double>(type: "REAL", nullable: true),
                    SwingContactHighM = table.Column<double>(type: "REAL", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_lift", x => x.Id);
                    table.ForeignKey(
                        name: "FK_lift_flight_FlightId",
                        column: x => x.FlightId,
                        principalTable: "flight",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "part",
                columns: table => new
                {
                    Name = table.Column<string>(type: "TEXT", nullable: false),
                    Kind = table.Column<string>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_part", x => x.Name);
                });

            migrationBuilder.CreateTable(
                name: "site",
                columns: table => new
                {
                    Key = table.Column<Guid>(type: "TEXT", nullable: false),
                    Name = table.Column<string>(type: "TEXT", nullable: false),
                    LatitudeDeg = table.Column<double>(type: "REAL", nullable: false),
                    LongitudeDeg = table.Column<double>(type: "REAL", nullable: false),
                    Text = table.Column<string>(type: "TEXT", nullable: false),
                    By = table.Column<string>(type: "TEXT", nullable: false),
                    At = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_site", x => x.Key);
                });

            migrationBuilder.CreateTable(
                name: "track",
                columns: table => new
                {
                    FlightId = table.Column<long>(type: "INTEGER", nullable: false),
                    LatitudeDeg = table.Column<double>(type: "REAL", nullable: false),
                    LongitudeDeg = table.Column<double>(type: "REAL", nullable: false),
                    HeightM = table.Column<double>(type: "REAL", nullable: false),
                    HasHeight = table.Column<bool>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_track", x => x.FlightId);
                    table.ForeignKey(
                        name: "FK_track_flight_FlightId",
                        column: x => x.FlightId,
                        principalTable: "flight",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "card",
                columns: table => new
                {
                    Key = table.Column<Guid>(type: "TEXT", nullable: false),
                    JobKey = table.Column<Guid>(type: "TEXT", nullable: false),
                    Name = table.Column<string>(type: "TEXT", nullable: false),
                    MediaType = table.Column<string>(type: "TEXT", nullable: false),
                    Digest = table.Column<string>(type: "TEXT", nullable: false),
                    IssuedAt = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_card", x => x.Key);
                    table.ForeignKey(
                        name: "FK_card_job_JobKey",
                        column: x => x.JobKey,
                        principalTable: "job",
                        principalColumn: "Key",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "flight_work",
                columns: table => new
                {
                    FlightId = table.Column<long>(type: "INTEGER", nullable: false),
                    JobKey = table.Column<Guid>(type: "TEXT", nullable: true),
                    Pilot = table.Column<string>(type: "TEXT", nullable: true),
                    Aircraft = table.Column<string>(type: "TEXT", nullable: true),
                    FromS = table.Column<double>(type: "REAL", nullable: false),
                    ToS = table.Column<double>(type: "REAL", nullable: false),
                    AirborneJson = table.Column<string>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_flight_work", x => x.FlightId);
                    table.ForeignKey(
                        name: "FK_flight_work_flight_FlightId",
                        column: x => x.FlightId,
                        principalTable: "flight",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "FK_flight_work_job_JobKey",
                        column: x => x.JobKey,
                        principalTable: "job",
                        principalColumn: "Key",
                        onDelete: ReferentialAction.SetNull);
                });

            migrationBuilder.CreateTable(
                name: "job_revision",
                columns: table => new
                {
                    JobKey = table.Column<Guid>(type: "TEXT", nullable: false),
                    Number = table.Column<int>(type: "INTEGER", nullable: false),
                    Text = table.Column<string>(type: "TEXT", nullable: false),
                    By = table.Column<string>(type: "TEXT", nullable: false),
                    At = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_job_revision", x => new { x.JobKey, x.Number });
                    table.ForeignKey(
                        name: "FK_job_revision_job_JobKey",
                        column: x => x.JobKey,
                        principalTable: "job",
                        principalColumn: "Key",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "correction",
                columns: table => new
                {
                    Id = table.Column<long>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    Key = table.Column<Guid>(type: "TEXT", nullable: false),
                    LiftId = table.Column<long>(type: "INTEGER", nullable: false),
                    Member = table.Column<string>(type: "TEXT", nullable: false),
                    Old = table.Column<string>(type: "TEXT", nullable: false),
                    New = table.Column<string>(type: "TEXT", nullable: false),
                    NewJson = table.Column<string>(type: "TEXT", nullable: false),
                    By = table.Column<string>(type: "TEXT", nullable: false),
                    At = table.Column<long>(type: "INTEGER", nullable: false),
                    Why = table.Column<string>(type: "TEXT", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_correction", x => x.Id);
                    table.ForeignKey(
                        name: "FK_correction_lift_LiftId",
                        column: x => x.LiftId,
                        principalTable: "lift",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "lift_measures",
                columns: table => new
                {
                    LiftId = table.Column<long>(type: "INTEGER", nullable: false),
                    Json = table.Column<string>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_lift_measures", x => x.LiftId);
                    table.ForeignKey(
                        name: "FK_lift_measures_lift_LiftId",
                        column: x => x.LiftId,
                        principalTable: "lift",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "part_entry",
                columns: table => new
                {
                    Id = table.Column<long>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    Key = table.Column<Guid>(type: "TEXT", nullable: false),
                    PartName = table.Column<string>(type: "TEXT", nullable: false),
                    Kind = table.Column<string>(type: "TEXT", nullable: false),
                    At = table.Column<long>(type: "INTEGER", nullable: false),
                    By = table.Column<string>(type: "TEXT", nullable: false),
                    Cycles = table.Column<long>(type: "INTEGER", nullable: false),
                    HoursInUse = table.Column<double>(type: "REAL", nullable: false),
                    FlightDigest = table.Column<string>(type: "TEXT", nullable: true),
                    NextDue = table.Column<DateOnly>(type: "TEXT", nullable: true),
                    Note = table.Column<string>(type: "TEXT", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_part_entry", x => x.Id);
                    table.ForeignKey(
                        name: "FK_part_entry_part_PartName",
                        column: x => x.PartName,
                        principalTable: "part",
                        principalColumn: "Name",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "job_site",
                columns: table => new
                {
                    JobKey = table.Column<Guid>(type: "TEXT", nullable: false),
                    SiteKey = table.Column<Guid>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_job_site", x => new { x.JobKey, x.SiteKey });
                    table.ForeignKey(
                        name: "FK_job_site_job_JobKey",
                        column: x => x.JobKey,
                        principalTable: "job",
                        principalColumn: "Key",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "FK_job_site_site_SiteKey",
                        column: x => x.SiteKey,
                        principalTable: "site",
                        principalColumn: "Key",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "track_column",
                columns: table => new
                {
                    FlightId = table.Column<long>(type: "INTEGER", nullable: false),
                    Name = table.Column<string>(type: "TEXT", nullable: false),
                    Data = table.Column<byte[]>(type: "BLOB", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_track_column", x => new { x.FlightId, x.Name });
                    table.ForeignKey(
                        name: "FK_track_column_track_FlightId",
                        column: x => x.FlightId,
                        principalTable: "track",
                        principalColumn: "FlightId",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "card_content",
                columns: table => new
                {
                    CardKey = table.Column<Guid>(type: "TEXT", nullable: false),
                    Content = table.Column<byte[]>(type: "BLOB", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_card_content", x => x.CardKey);
                    table.ForeignKey(
                        name: "FK_card_content_card_CardKey",
                        column: x => x.CardKey,
                        principalTable: "card",
                        principalColumn: "Key",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateIndex(
                name: "IX_card_JobKey",
                table: "card",
                column: "JobKey");

            migrationBuilder.CreateIndex(
                name: "IX_correction_Key",
                table: "correction",
                column: "Key",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_correction_LiftId",
                table: "correction",
                column: "LiftId");

            migrationBuilder.CreateIndex(
                name: "IX_day_entry_Day",
                table: "day_entry",
                column: "Day");

            migrationBuilder.CreateIndex(
                name: "IX_day_entry_Key",
                table: "day_entry",
                column: "Key",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_exceedance_FlightId",
                table: "exceedance",
                column: "FlightId");

            migrationBuilder.CreateIndex(
                name: "IX_flight_work_Aircraft",
                table: "flight_work",
                column: "Aircraft");

            migrationBuilder.CreateIndex(
                name: "IX_flight_work_FromS",
                table: "flight_work",
                column: "FromS");

            migrationBuilder.CreateIndex(
                name: "IX_flight_work_JobKey",
                table: "flight_work",
                column: "JobKey");

            migrationBuilder.CreateIndex(
                name: "IX_flight_work_Pilot",
                table: "flight_work",
                column: "Pilot");

            migrationBuilder.CreateIndex(
                name: "IX_hover_point_Aircraft_AtS",
                table: "hover_point",
                columns: new[] { "Aircraft", "AtS" });

            migrationBuilder.CreateIndex(
                name: "IX_hover_point_FlightId",
                table: "hover_point",
                column: "FlightId");

            migrationBuilder.CreateIndex(
                name: "IX_job_Day",
                table: "job",
                column: "Day");

            migrationBuilder.CreateIndex(
                name: "IX_job_site_SiteKey",
                table: "job_site",
                column: "SiteKey");

            migrationBuilder.CreateIndex(
                name: "IX_lift_Day",
                table: "lift",
                column: "Day");

            migrationBuilder.CreateIndex(
                name: "IX_lift_FlightId_AtS",
                table: "lift",
                columns: new[] { "FlightId", "AtS" });

            migrationBuilder.CreateIndex(
                name: "IX_lift_Key",
                table: "lift",
                column: "Key",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_part_entry_FlightDigest",
                table: "part_entry",
                column: "FlightDigest");

            migrationBuilder.CreateIndex(
                name: "IX_part_entry_Key",
                table: "part_entry",
                column: "Key",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_part_entry_PartName_At",
                table: "part_entry",
                columns: new[] { "PartName", "At" });
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "aircraft");

            migrationBuilder.DropTable(
                name: "card_content");

            migrationBuilder.DropTable(
                name: "correction");

            migrationBuilder.DropTable(
                name: "day_entry");

            migrationBuilder.DropTable(
                name: "exceedance");

            migrationBuilder.DropTable(
                name: "flight_work");

            migrationBuilder.DropTable(
                name: "hover_point");

            migrationBuilder.DropTable(
                name: "job_revision");

            migrationBuilder.DropTable(
                name: "job_site");

            migrationBuilder.DropTable(
                name: "lift_measures");

            migrationBuilder.DropTable(
                name: "part_entry");

            migrationBuilder.DropTable(
                name: "track_column");

            migrationBuilder.DropTable(
                name: "card");

            migrationBuilder.DropTable(
                name: "site");

            migrationBuilder.DropTable(
                name: "lift");

            migrationBuilder.DropTable(
                name: "part");

            migrationBuilder.DropTable(
                name: "track");

            migrationBuilder.DropTable(
                name: "job");
        }
    }
}
